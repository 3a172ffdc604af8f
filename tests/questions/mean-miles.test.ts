import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { findingSchema, type Estimate, type Finding } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { fleet, many, type Episode, type Life } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

async function answer(
  lives: readonly Life[],
  view: Partial<View> = {},
  episodes?: readonly Episode[],
): Promise<Finding> {
  const source = await fleet(engine, lives, episodes);
  return findingSchema.parse(await ask(source, 'mean-miles', viewSchema.parse(view)));
}

const estimate = (finding: Finding, name: string, group = 'all'): Estimate => {
  const found = finding.groups.find(({ label }) => label === group)?.estimates[name];
  if (!found) throw new Error(`no ${name} of ${group}`);
  return found;
};

/** Ten wheel ends on ten vehicles, 50,000 miles each. */
const ten = many(10, () => ({ exit_miles: 50_000 }));
const found = (life: string | null, mode = 'bearing', component = 'bearing'): Episode => ({ life, mode, component });

test('every mode counts, in all miles: 4 failures in 500,000 miles', async () => {
  const finding = await answer(ten, {}, [
    found('L0'),
    found('L0', 'vent', 'other'),
    found('L1', 'seal-inner', 'seal'),
    found('L2', 'hot-hub'),
  ]);
  expect(finding.groups[0]).toMatchObject({ failures: 4, miles: 500_000, counts: { wheelEnds: 10, vehicles: 10 } });
  expect(estimate(finding, 'meanMilesBetweenFailures').value).toBeCloseTo(125_000, 9);
  expect(estimate(finding, 'failuresPerMillionMiles').value).toBeCloseTo(8, 12);
  // 2T/χ²(0.975; 10) and 2T/χ²(0.025; 8): 20.4832 and 2.1797 (NIST/SEMATECH e-Handbook, chi-square tables).
  expect(estimate(finding, 'meanMilesBetweenFailures').lower).toBeCloseTo(1_000_000 / 20.4832, 0);
  expect(Math.round((estimate(finding, 'meanMilesBetweenFailures').upper ?? 0) / 100)).toBe(
    Math.round(1_000_000 / 2.17973 / 100),
  );
});

test('one mode narrows the failures and not the miles', async () => {
  const finding = await answer(ten, { mode: 'bearing' }, [found('L0'), found('L1', 'seal-inner', 'seal')]);
  expect(finding.groups[0]).toMatchObject({ failures: 1, miles: 500_000 });
});

test('no failure: no mean, its lower limit T/3.689 (two-sided 95 %)', async () => {
  const finding = await answer(ten, {}, []);
  const mean = estimate(finding, 'meanMilesBetweenFailures');
  expect(mean).toMatchObject({ value: null, upper: null, reason: 'no failure was seen' });
  expect((mean.lower ?? 0) / 1000).toBeCloseTo(500 / 3.689, 1);
  expect(finding.firmness).toBe('too few');
});

test('a failure with no watched life behind it is counted beside and doubted, not in the rate', async () => {
  const finding = await answer(ten, {}, [...many(9, (place) => found(`L${place}`)), found(null)]);
  expect(finding.groups[0]?.failures).toBe(9);
  expect(finding.doubts.find(({ name }) => name === 'Failures not placed')).toMatchObject({ state: 'fails' });
});

test('lives of unknown start count in the rate with their miles', async () => {
  const lives = [
    ...ten,
    {
      life_id: 'X',
      unit_id: 'X',
      exit_miles: null,
      entry_miles: null,
      exposure_miles: 30_000,
      install_kind: 'unknown',
    },
  ];
  const finding = await answer(lives, {}, [found('X')]);
  expect(finding.groups[0]).toMatchObject({
    failures: 1,
    miles: 530_000,
    counts: { unknownStartLives: 1, unknownStartMiles: 30_000 },
  });
});

describe('a deviation', () => {
  const value = (place: number) => (place < 20 ? 'yes' : place < 60 ? 'no' : place < 80 ? 'unknown' : 'not-applicable');
  const lives = many(100, (place) => ({
    exit_miles: 50_000,
    dev_dirty_cavity: value(place),
    install_kind: place % 20 === 19 ? 'original' : 'replacement',
  }));
  const episodes = [...many(19, (place) => found(`L${place}`)), ...many(19, (place) => found(`L${20 + place}`))];

  test('stands yes, no, unknown; where it cannot exist and where no job fitted the part is left out and said', async () => {
    const finding = await answer(lives, { by: ['dev_dirty_cavity'] }, episodes);
    expect(finding.groups.map(({ label, lives: count }) => [label, count])).toEqual([
      ['yes', 19],
      ['no', 38],
      ['unknown', 19],
    ]);
    expect(finding.doubts.find(({ name }) => name === 'Left out')?.detail).toBe(
      '19 lives where the deviation cannot exist are not compared; 5 lives that no job in these records began are not compared, as no shop or step can be told.',
    );
  });

  test('the ratio is yes over no: twice the failures per mile', async () => {
    const finding = await answer(lives, { by: ['dev_dirty_cavity'] }, episodes);
    // 19 in 19 × 50,000 miles against 19 in 38 × 50,000.
    expect(estimate(finding, 'rateRatio', 'yes').value).toBeCloseTo(2, 12);
    expect(finding.groups.find(({ label }) => label === 'no')?.estimates['rateRatio']).toBeUndefined();
    expect(estimate(finding, 'rateRatio', 'unknown')).toMatchObject({
      value: null,
      reason: 'fewer than 5 in one of the groups',
    });
    expect(finding.answer).toMatch(
      /^Wheel ends failed 2\.0 times as often \(.*\) where the cavity was not cleaned as where it was/,
    );
  });

  test('not known is bounded both ways', async () => {
    const finding = await answer(lives, { by: ['dev_dirty_cavity'] }, episodes);
    // All 19 unknown with it: 19/38 over 19/38 = 1; without: 19/19 over 19/57 = 3.
    expect(finding.doubts.find(({ name }) => name === 'Not known')).toMatchObject({
      state: 'fails',
      detail:
        'Not known for 25\u00a0% (19 lives); had all of them had it the ratio would be 1.0, had none 3.0, instead of 2.0.',
    });
  });
});

test('shops are compared by replacement lives alone', async () => {
  const lives = many(20, (place) => ({
    exit_miles: 1000,
    shop: place % 2 ? 'A' : 'B',
    install_kind: place < 4 ? 'original' : 'replacement',
  }));
  const finding = await answer(lives, { by: ['shop'] });
  expect(finding.groups.reduce((sum, group) => sum + group.lives, 0)).toBe(16);
  const filtered = await answer(lives, { where: { shop: ['A'] } });
  expect(filtered.groups[0]?.lives).toBe(10);
});

test('vehicle limits are wider where failures sit on few vehicles', async () => {
  const lives = many(100, (place) => ({ unit_id: `U${place % 25}`, exit_miles: 10_000 }));
  const episodes = many(40, (place) => found(`L${(place % 5) + 25 * (place % 4)}`));
  const rate = estimate(await answer(lives, {}, episodes), 'failuresPerMillionMiles');
  expect((rate.vehicleUpper ?? 0) - (rate.vehicleLower ?? 0)).toBeGreaterThan((rate.upper ?? 0) - (rate.lower ?? 0));
});
