import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { lifeChecks } from '../../../lib/questions/detection/life-checks.ts';
import { foundBy } from '../../../lib/questions/detection/lag-alone.ts';
import { ask } from '../../../lib/questions/index.ts';
import { createRandom } from '../../../lib/statistics/index.ts';
import { findingSchema, type Finding } from '../../../shared/finding.ts';
import { viewSchema, type View } from '../../../shared/view.ts';
import { fleet, many, type Episode, type Life } from '../fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const answer = async (lives: readonly Life[], view: Partial<View> = {}, episodes?: Episode[]): Promise<Finding> =>
  findingSchema.parse(await ask(await fleet(engine, lives, episodes), 'detection', viewSchema.parse(view)));
const value = (finding: Finding, label: string, name: string) =>
  finding.groups.find((group) => group.label === label)?.estimates[name]?.value ?? null;

describe('planted lag', () => {
  /** Leaks begin at a Weibull age; the only looks are every `gap` miles, and each sees what is there. */
  function looked(lubricant: string, gap: number, seed: number): Life[] {
    const random = createRandom(seed);
    return many(900, (place) => {
      const begins = 150_000 * random.exponential() ** (1 / 1.5);
      const first = gap * random.uniform();
      const before = first + gap * Math.floor((begins - first) / gap);
      const found = before + gap;
      const life = { lubricant, life_id: `${lubricant}${place}`, unit_id: `${lubricant}${place}` };
      if (found <= 160_000)
        return {
          ...{ ...life, exit_miles: found, state: 'failed', mode: 'seal-inner' },
          ...{ onset_lower_miles: Math.max(before, 0), onset_upper_miles: found },
        };
      const last = first + gap * Math.floor((160_000 - first) / gap);
      return { ...life, exit_miles: 160_000, onset_lower_miles: Math.max(last, 0) };
    });
  }
  // S = exp(−(100/150)^1.5): what begins by 100,000 miles, whoever looks.
  const truth = 1 - Math.exp(-((100 / 150) ** 1.5));

  test('the curve of beginning finds the truth where the curve of finding does not', async () => {
    const finding = await answer([...looked('oil', 4_000, 1), ...looked('packed', 60_000, 2)]);
    for (const label of ['oil', 'packed']) {
      const begun = finding.groups.find((group) => group.label === label)?.estimates['begunByHorizon'];
      expect(begun?.lower as number).toBeLessThan(truth);
      expect(begun?.upper as number).toBeGreaterThan(truth);
    }
    // One in ten has begun by 150,000 · (−ln 0.9)^(1/1.5).
    const b10 = finding.groups.find(({ label }) => label === 'packed')?.estimates['b10Begun'];
    expect(b10?.lower as number).toBeLessThan(150_000 * (-Math.log(0.9)) ** (1 / 1.5));
    expect(b10?.upper as number).toBeGreaterThan(150_000 * (-Math.log(0.9)) ** (1 / 1.5));
    const found = finding.groups.find(({ label }) => label === 'packed')?.estimates['foundByHorizon'];
    expect(found?.upper as number).toBeLessThan(truth);
    // Alike when they begin, unlike when they are found: the lag alone makes packed look better.
    expect(
      (value(finding, 'packed', 'foundByHorizon') as number) / (value(finding, 'oil', 'foundByHorizon') as number),
    ).toBeLessThan(0.75);
    expect(finding.doubts.find(({ name }) => name === 'Found late')?.state).toBe('fails');
    const series = finding.series.map(({ name, group }) => `${name} ${group}`);
    for (const name of ['found', 'begun', 'begun-fitted']) expect(series).toContain(`${name} packed`);
  });
});

describe('found at a rate', () => {
  // Begins at rate a, found at rate r: P = 1 − (r e^(−ah) − a e^(−rh)) / (r − a).
  test('is the closed form where leaks begin at one rate', () => {
    const [a, r, h] = [1 / 150_000, 1 / 40_000, 100_000];
    const closed = 1 - (r * Math.exp(-a * h) - a * Math.exp(-r * h)) / (r - a);
    expect(foundBy({ shape: 1, scale: 1 / a }, r, h)).toBeCloseTo(closed, 5);
  });
  test('is nothing where nobody looks, and all that begin where they are seen at once', () => {
    expect(foundBy({ shape: 1.5, scale: 100_000 }, 0, 50_000)).toBe(0);
    expect(foundBy({ shape: 1.5, scale: 100_000 }, 10, 50_000)).toBeCloseTo(1 - Math.exp(-(0.5 ** 1.5)), 3);
  });
});

test('checks are put to their lives in the order asked for', () => {
  const checks = { life: Int32Array.of(0, 2, 2), age: Float64Array.of(5, 7, 9), seen: Uint8Array.of(0, 0, 1) };
  const { first, age, seen } = lifeChecks(checks, Int32Array.of(2, 1, 0), 3);
  expect([...first]).toEqual([0, 2, 2, 3]);
  expect([...age]).toEqual([7, 9, 5]);
  expect([...seen]).toEqual([0, 1, 0]);
});

test('leaks, soaked linings and bearings stand together, each ruling the others out', async () => {
  // Twenty seals in oil: 4 leak dry, 3 soak, 2 lose a bearing, 1 is renewed, all at 50,000; ten run on to 120,000.
  const end = (place: number): Life => ({
    ...{ life_id: `L${place}`, lubricant: 'oil' },
    exit_miles: place < 10 ? 50_000 : 120_000,
    ...(place < 7 ? { state: 'failed', mode: 'seal-inner' } : {}),
    ...(place === 7 || place === 8 ? { state: 'other-failure' } : {}),
    ...(place === 9 ? { state: 'planned' } : {}),
  });
  const episodes = many<Episode>(9, (place) => ({
    life: `L${place}`,
    mode: place < 7 ? 'seal-inner' : 'bearing',
    component: place < 7 ? 'seal' : 'bearing',
    lining: place >= 4 && place < 7 ? 'yes' : 'no',
  }));
  const finding = await answer(many(20, end), {}, episodes);
  expect(value(finding, 'oil', 'leakNotSoakedByHorizon')).toBeCloseTo(4 / 20, 12);
  expect(value(finding, 'oil', 'soakedLiningByHorizon')).toBeCloseTo(3 / 20, 12);
  expect(value(finding, 'oil', 'bearingFailureByHorizon')).toBeCloseTo(2 / 20, 12);
});

test('a lives table without inspections says why the chance cannot be told', async () => {
  const finding = await answer(
    many(30, (place) => ({ exit_miles: 1000 * (place + 1), state: 'failed', mode: 'seal-inner' })),
  );
  expect(finding.groups[0]?.estimates['chanceACheckSees']).toMatchObject({ value: null });
  expect(finding.groups[0]?.estimates['chanceACheckSees']?.reason).toContain('no inspections');
  expect(
    (
      await answer(
        many(3, () => ({ exit_miles: 9, component: 'bearing' })),
        { component: 'bearing' },
      )
    ).answer,
  ).toContain('Cannot be told of bearings');
});
