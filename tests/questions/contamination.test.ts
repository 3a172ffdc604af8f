import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { findingSchema, type Finding } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { check, loadCase } from '../reference/reference.ts';
import { fleet, many, type Episode } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const lives = many(200, (place) => ({ exit_miles: 100_000, lubricant: place < 100 ? 'oil' : 'packed' }));
const leak = (place: number, lining?: 'yes' | 'no'): Episode => ({
  ...{ life: `L${place}`, mode: 'seal-inner', component: 'seal' },
  ...(lining ? { lining } : {}),
});

async function answer(episodes: readonly Episode[], view: Partial<View> = {}): Promise<Finding> {
  return findingSchema.parse(await ask(await fleet(engine, lives, episodes), 'contamination', viewSchema.parse(view)));
}

const value = (finding: Finding, name: string, group = 0) => finding.groups[group]?.estimates[name];

/** 12 leaks soaked the lining, 18 did not, 10 say nothing; 3 hot hubs soaked one too. */
const episodes = [
  ...many(12, (place) => leak(place, 'yes')),
  ...many(18, (place) => leak(12 + place, 'no')),
  ...many(10, (place) => leak(30 + place)),
  ...many(3, (place) => ({ life: `L${100 + place}`, mode: 'hot-hub', component: 'bearing', lining: 'yes' as const })),
];

test('soaked linings of any mode over all miles; the share among seal leaks that tell', async () => {
  const finding = await answer(episodes);
  expect(value(finding, 'contaminatedPerMillionMiles')?.value).toBeCloseTo(15 / 20, 12);
  expect(value(finding, 'contaminatedShareOfLeaks')?.value).toBeCloseTo(12 / 30, 12);
  expect(value(finding, 'contaminatedShareIfUnknownNo')?.value).toBeCloseTo(12 / 40, 12);
  expect(value(finding, 'contaminatedShareIfUnknownYes')?.value).toBeCloseTo(22 / 40, 12);
  expect(finding.groups[0]?.counts).toMatchObject({
    contaminated: 15,
    leaksSoaked: 12,
    leaksClean: 18,
    leaksUnknown: 10,
    liningUnknown: 10,
  });
  expect(finding.answer).toMatch(
    /^40 of 100 seal leaks reached the lining \(.*\), of 30 leaks that tell\. 0\.750 soaked linings per million/,
  );
});

test('the share has Wilson limits', async () => {
  // Fromont et al. 2001, animals infected: the counts of reference case prop-toxocara.
  const { expected } = loadCase('prop-toxocara');
  const [events, total] = [expected.x, expected.n] as [number, number];
  const finding = await answer([
    ...many(events, (place) => leak(place, 'yes')),
    ...many(total - events, (place) => leak(events + place, 'no')),
  ]);
  const share = value(finding, 'contaminatedShareOfLeaks');
  check(
    { method: 'contamination share', source: 'prop-toxocara' },
    [share?.lower ?? NaN, share?.upper ?? NaN],
    expected.wilson,
    1e-8,
  );
});

test('what the leaks do not tell is bounded and doubted', async () => {
  const finding = await answer(episodes);
  expect(finding.doubts.find(({ name }) => name === 'Lining not told')?.detail).toBe(
    '25\u00a0% of seal leaks (10) say nothing of the lining; the share lies between 30 of 100, had none of those reached it, and 55 of 100, had all.',
  );
});

test('without a leak that tells there is no share, and the reason is given', async () => {
  const finding = await answer(many<Episode>(3, (place) => leak(place)));
  expect(value(finding, 'contaminatedShareOfLeaks')).toMatchObject({
    value: null,
    lower: null,
    upper: null,
    reason: 'no seal leak says whether the lining was soaked',
  });
});

test('cut by lubricant, rates are said and the shares of the two compared', async () => {
  const soaked = [
    ...many(40, (place) => leak(place, place < 30 ? 'yes' : 'no')),
    ...many(40, (place) => leak(100 + place, place < 10 ? 'yes' : 'no')),
  ];
  const finding = await answer(soaked, { by: ['lubricant'] });
  expect(finding.groups.map(({ label }) => label)).toEqual(['oil', 'packed']);
  expect(value(finding, 'rateRatio', 1)?.value).toBeCloseTo(10 / 30, 12);
  expect(finding.answer).toMatch(
    /^Per million wheel-end miles, linings are soaked 3\.00 times in oil \(.*\) and 1\.00 in packed grease .*$/,
  );
  expect(finding.further).toMatch(
    /^Of seal leaks that tell, 75 of 100 in oil \(.*\) and 25 of 100 in packed grease \(.*\) reached the lining\.$/,
  );
});
