import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { fitLife } from '../../lib/statistics/index.ts';
import { findingSchema, type Estimate, type Finding, type LifeList } from '../../shared/finding.ts';
import { daysAMonth } from '../../shared/units.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { fleet, many, type Life } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

async function answer(lives: readonly Life[], view: Partial<View> = {}, fingerprint = 'test'): Promise<Finding> {
  const source = await fleet(engine, lives);
  const asked = { ...source, account: { ...source.account, fingerprint } };
  return findingSchema.parse(await ask(asked, 'ahead', viewSchema.parse(view)));
}
const estimate = (finding: Finding, name: string, group = 0): Estimate =>
  finding.groups[group]?.estimates[name] as Estimate;
const list = (finding: Finding, name: LifeList['name']) => finding.lists?.find((one) => one.name === name)?.lives ?? [];

/** Lives failed at the evenly spread shares of an exponential of 100,000 miles: the distribution itself. */
const exponential = (count: number): Life[] =>
  many(count, (place) => ({
    ...{ life_id: `F${place}`, unit_id: `F${place}`, role: 'drive', state: 'failed', mode: 'seal-inner' },
    exit_miles: -100_000 * Math.log(1 - (place + 0.5) / count),
  }));

describe('lives without memory, by closed form', () => {
  const running: Life[] = many(200, (place) => ({
    ...{
      life_id: `R${place}`,
      unit_id: `R${place}`,
      role: 'drive',
      exit_miles: 1 + 100 * place,
      entry_miles: 100 * place,
    },
  }));
  let finding: Finding;
  beforeAll(async () => {
    finding = await answer([...exponential(3000), ...running], { ahead: 'miles', aheadMiles: 10_000 });
  });

  test('n (1 − e^(−miles / mean)) are expected, whatever the ages', () => {
    expect(finding.groups[0]?.lives).toBe(200);
    expect(estimate(finding, 'expectedFailures').value as number).toBeCloseTo(200 * (1 - Math.exp(-0.1)), 0);
  });
  test('their limits are those of the binomial (R: qbinom(c(.025, .975), 200, 1 − e^−0.1) = 11, 28)', () => {
    const { lower, upper } = estimate(finding, 'expectedFailures');
    expect(Math.abs((lower as number) - 11)).toBeLessThanOrEqual(1);
    expect(Math.abs((upper as number) - 28)).toBeLessThanOrEqual(1);
  });
});

describe('wear-out by hand', () => {
  // Failed at 50,000 to 110,000 miles, half of them first watched at 40,000; running at 30,000 to 79,000.
  const past: Life[] = many(61, (place) => ({
    ...{ life_id: `F${place}`, unit_id: `F${place}`, role: 'trailer', state: 'failed', mode: 'seal-inner', shop: 'A' },
    ...{ entry_miles: place % 2 === 0 ? 40_000 : 0, exit_miles: 50_000 + 1000 * place },
    lining_contaminated: place % 3 === 0 ? 'yes' : 'no',
  }));
  const age = (place: number) => 30_000 + 1000 * place;
  /** So many miles a day that the pace of every vehicle is its own. */
  const pace = (place: number) => 100 + place;
  const running: Life[] = many(50, (place) => ({
    ...{ life_id: `R${place}`, unit_id: `R${place}`, role: 'trailer', exit_miles: age(place), axle: 1 + (place % 2) },
    ...{ exposure_months: age(place) / pace(place) / daysAMonth, exit_months: 10, install_date: '2025-01-01' },
    ...(place < 10 ? { install_kind: 'original' } : { shop: place < 30 ? 'A' : 'B' }),
  }));
  // Those running have not failed yet: they are among the lives fitted.
  const fitted = fitLife(
    {
      entry: [...past.map((life) => life['entry_miles'] as number), ...running.slice(10).map(() => 0)],
      exit: [...past, ...running.slice(10)].map((life) => life['exit_miles'] as number),
      event: [...past.map(() => 1), ...running.slice(10).map(() => 0)],
    },
    { distribution: 'weibull' },
  );
  const chance = (place: number, miles: number) => {
    const { shape, scale } = fitted.parameters;
    const at = (one: number) => (one / scale.value) ** shape.value;
    return 1 - Math.exp(at(age(place)) - at(age(place) + miles));
  };
  const replacements = running.slice(10);
  const lives = [...past, ...replacements];

  test('each running life fails ahead with 1 − S(age + miles) / S(age), the miles its vehicle’s own', async () => {
    const finding = await answer(lives, { aheadMonths: 4 });
    const expected = replacements.reduce((sum, _, at) => sum + chance(10 + at, 4 * daysAMonth * pace(10 + at)), 0);
    expect(estimate(finding, 'expectedFailures').value as number).toBeCloseTo(expected, 6);
    const soaked = past.filter(({ lining_contaminated: lining }) => lining === 'yes').length / past.length;
    expect(estimate(finding, 'expectedSoakedLinings').value as number).toBeCloseTo(expected * soaked, 6);
    expect(estimate(finding, 'expectedCost').value as number).toBeCloseTo(expected * (300 + 300 * soaked), 4);
  });
  test('miles are taken as they stand', async () => {
    const finding = await answer(lives, { ahead: 'miles', aheadMiles: 12_000 });
    const expected = replacements.reduce((sum, _, at) => sum + chance(10 + at, 12_000), 0);
    expect(estimate(finding, 'expectedFailures').value as number).toBeCloseTo(expected, 6);
  });
  test('the list is of running lives, the highest chance first, and says what it is not', async () => {
    const finding = await answer(lives, { ahead: 'miles', aheadMiles: 12_000 });
    const listed = list(finding, 'inspection');
    expect(listed.length).toBe(40);
    expect(listed.every(({ unitId }) => unitId.startsWith('R'))).toBe(true);
    expect(listed[0]?.unitId).toBe('R49');
    expect(listed[0]?.chance as number).toBeCloseTo(chance(49, 12_000), 9);
    const chances = listed.map((life) => life.chance as number);
    expect(chances).toEqual([...chances].sort((a, b) => b - a));
    expect(finding.lists?.[0]?.says).toMatch(/No list clears a wheel end/);
  });
  test('told apart by shop, those that no shop fitted stay in', async () => {
    const finding = await answer([...past, ...running], { by: ['shop'], ahead: 'miles', aheadMiles: 12_000 });
    const all = finding.groups.reduce((sum, group) => sum + group.lives, 0);
    expect(all).toBe(50);
    expect(finding.groups.map(({ label }) => label)).toContain('unknown');
  });
  test('the whole is the same numbers whatever it is told apart by', async () => {
    const asked = { ahead: 'miles', aheadMiles: 12_000 } as const;
    const [together, apart] = [
      await answer([...past, ...running], asked),
      await answer([...past, ...running], { ...asked, by: ['shop'] }),
    ];
    expect(apart.groups.length).toBeGreaterThan(1);
    const whole = (finding: Finding) => /\d+ leaks? \(\d+ to \d+\)/.exec(finding.answer)?.[0];
    expect(whole(together)).toBeDefined();
    expect(whole(apart)).toBe(whole(together));
  });
  test('refused without running lives, or with too few failures', async () => {
    expect((await answer(past)).answer).toContain('no running lives');
    const few = await answer([...past.slice(0, 4), ...replacements]);
    expect(few.answer).toContain('fewer than 5 failures');
    expect(few.firmness).toBe('too few');
  });
  test('a life that has just been fitted is among those forecast', async () => {
    const fresh: Life = { life_id: 'N', unit_id: 'N', role: 'trailer', entry_miles: 0, exit_miles: 0 };
    const far = { ahead: 'miles', aheadMiles: 60_000 } as const;
    const [before, after] = [await answer(lives, far), await answer([...lives, fresh], far)];
    const { shape, scale } = fitted.parameters;
    const expected = ({ groups }: Finding) => groups[0]?.estimates['expectedFailures']?.value as number;
    expect(after.groups[0]?.lives).toBe(41);
    expect(expected(after) - expected(before)).toBeCloseTo(1 - Math.exp(-((60_000 / scale.value) ** shape.value)), 6);
  });
});

describe('parts to cut open', () => {
  const removed: Life[] = many(160, (place) => ({
    ...{ life_id: `L${place}`, unit_id: `U${place}`, role: 'drive', life_number: 1 },
    ...{ exit_miles: place % 4 < 2 ? 5000 + 100 * place : 60_000 + 500 * place },
    dev_seal_cocked: place % 8 < 4 ? 'yes' : 'no',
    ...(place % 2 === 0 ? { state: 'failed', mode: 'seal-inner' } : { state: 'planned' }),
  }));
  const running: Life[] = many(10, (place) => ({
    life_id: `R${place}`,
    unit_id: `R${place}`,
    role: 'drive',
    exit_miles: 9000,
  }));
  const view = { ahead: 'miles', aheadMiles: 5000, deviation: 'seal-cocked' } as const;

  test('three of each kind, with and without, and a survivor at like miles for each', async () => {
    const drawn = list(await answer([...removed, ...running], view), 'teardown');
    const kinds = new Map<string, number>();
    for (const { kind } of drawn) kinds.set(kind ?? '', (kinds.get(kind ?? '') ?? 0) + 1);
    expect(drawn.length).toBe(24);
    expect(kinds.size).toBe(8);
    expect(new Set(kinds.values())).toEqual(new Set([3]));
    expect(new Set(drawn.map(({ unitId }) => unitId)).size).toBe(24);
    const ended = (unitId: string) => removed.find((life) => life['unit_id'] === unitId)?.['state'];
    for (const { unitId, kind } of drawn)
      expect(ended(unitId)).toBe(kind?.startsWith('renewed') === true ? 'planned' : 'failed');
  });
  test('the draw hangs on the records alone', async () => {
    const names = async (fingerprint: string) =>
      list(await answer([...removed, ...running], view, fingerprint), 'teardown').map(({ unitId }) => unitId);
    const first = await names('one');
    expect(await names('one')).toEqual(first);
    expect(await names('another')).not.toEqual(first);
  });
});
