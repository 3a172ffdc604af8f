import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { ask } from '../../../lib/questions/index.ts';
import { findingSchema, shownLimits, type Estimate, type Finding } from '../../../shared/finding.ts';
import { viewSchema, type View } from '../../../shared/view.ts';
import { fleet } from '../fleet.ts';
import { plantedShops, plantedTruth, type Planted } from './planted-shops.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const answer = async (plan: Planted, view: Partial<View> = {}): Promise<Finding> =>
  findingSchema.parse(await ask(await fleet(engine, plantedShops(plan)), 'shops', viewSchema.parse(view)));

const of = ({ groups }: Finding, label: string, name: string): Estimate =>
  groups.find((group) => group.label === label)?.estimates[name] as Estimate;

/** Hard work lies at North, which fits as well as any; South fits worse and has the easy work. */
const confounded: Planted = {
  ...{ seed: 1, vehicles: 900, trailerRatio: 4, rate: 8e-7, frailty: 0.3 },
  shops: [
    { name: 'North', trailer: 0.9, ratio: 1 },
    { name: 'South', trailer: 0.1, ratio: 2 },
    { name: 'West', trailer: 0.5, ratio: 1 },
  ],
};

describe('a worse shop with easy work', () => {
  test('the plain rates put another first, the comparison of like work the right one', async () => {
    const finding = await answer(confounded);
    const crude = (label: string) => of(finding, label, 'crudeFailuresPerMillionMiles').value as number;
    expect(crude('North')).toBeGreaterThan(crude('South'));
    expect(finding.groups[0]?.label).toBe('South');
    expect(finding.groups[0]?.counts['orderLikeForLike']).toBe(1);
    const { lower } = shownLimits(of(finding, 'South', 'observedToExpected'));
    expect(lower).toBeGreaterThan(1);
    expect(finding.answer).toContain('where installed by South');
    expect(finding.further).toContain('The plain rate is highest where installed by North');
    expect(finding.answer).not.toMatch(/caused|because/);
  });

  test('taking nothing into account but the role is what turns it', async () => {
    const finding = await answer(confounded, { adjust: ['role'] });
    const steps = finding.series.filter(({ name }) => name === 'steps');
    const at = (label: string) => steps.find(({ group }) => group === label)?.columns as Record<string, number[]>;
    expect(Object.keys(at('South'))).toEqual(['watched', 'age', 'role']);
    expect(at('North')['watched']?.[0]).toBeGreaterThan(at('South')['watched']?.[0] as number);
    expect(at('North')['role']?.[0]).toBeLessThan(at('South')['role']?.[0] as number);
    expect(at('South')['role']?.[0]).toBe(of(finding, 'South', 'observedToExpected').value);
    const mix = finding.series.find(({ name, group }) => name === 'mix role' && group === 'North');
    const shares = Object.values(mix?.columns ?? {}).map(([share]) => share as number);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(mix?.columns['trailer']?.[0]).toBeGreaterThan(0.85);
  });

  test('expected failures add up to those seen, over all shops and over their quarters', async () => {
    const finding = await answer(confounded);
    const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
    const expected = finding.groups.map(({ estimates }) => estimates['expectedFailures']?.value as number);
    expect(sum(expected)).toBeCloseTo(finding.data.failures, 8);
    for (const { label, failures, estimates } of finding.groups) {
      const own = finding.series.find(({ name, group }) => name === 'install quarter' && group === label)?.columns;
      expect(sum(own?.['observed'] as number[])).toBe(failures);
      expect(sum(own?.['expected'] as number[])).toBeCloseTo(estimates['expectedFailures']?.value as number, 8);
    }
  });

  // 20 seeds of three shops; 93 % less three standard errors of a share of 60.
  test('the planted ratio lies within the limits as often as they say', { timeout: 120_000 }, async () => {
    const truth = plantedTruth(confounded);
    let [held, first] = [0, 0];
    for (let seed = 1; seed <= 20; seed++) {
      const finding = await answer({ ...confounded, seed, vehicles: 300 });
      if (finding.groups[0]?.label === 'South') first++;
      for (const [index, { name }] of confounded.shops.entries()) {
        const { lower, upper } = shownLimits(of(finding, name, 'observedToExpected'));
        if ((lower as number) <= (truth[index] as number) && (upper as number) >= (truth[index] as number)) held++;
      }
    }
    expect(held / 60).toBeGreaterThan(0.83);
    expect(first).toBeGreaterThanOrEqual(18);
  });
});

describe('shops that do not differ', () => {
  // At most 5 % by design (Holm); of 20 seeds over four would come by chance three times in a thousand.
  test('none is said to, though their work does', { timeout: 120_000 }, async () => {
    let said = 0;
    for (let seed = 101; seed <= 120; seed++) {
      const shops = confounded.shops.map((shop) => ({ ...shop, ratio: 1 }));
      const finding = await answer({ ...confounded, shops, seed, vehicles: 300 });
      if (!finding.answer.startsWith('No shop')) said++;
    }
    expect(said).toBeLessThanOrEqual(4);
  });
});

describe('an excess that goes with a recorded deviation', () => {
  const deviating: Planted = {
    ...{ seed: 3, vehicles: 900, trailerRatio: 1.5, rate: 1.2e-6, frailty: 0, cockedRatio: 6 },
    shops: [
      { name: 'North', trailer: 0.5, ratio: 1, cocked: 0.02 },
      { name: 'South', trailer: 0.5, ratio: 1, cocked: 0.3 },
      { name: 'West', trailer: 0.5, ratio: 1, cocked: 0.02 },
    ],
  };

  test('is gone once the deviation is taken into account', async () => {
    const finding = await answer(deviating);
    expect(shownLimits(of(finding, 'South', 'observedToExpected')).lower).toBeGreaterThan(1.2);
    const withThem = shownLimits(of(finding, 'South', 'observedToExpectedWithDeviations'));
    expect(withThem.lower).toBeLessThan(1);
    expect(withThem.upper).toBeGreaterThan(1);
    const part = of(finding, 'South', 'excessWithDeviations');
    expect(part.lower).toBeLessThan(1);
    expect(part.lower).toBeGreaterThan(0.3);
    expect(part.upper).toBeGreaterThan(1);
    expect(shownLimits(of(finding, 'South', 'changeWithDeviations')).upper).toBeLessThan(1);
    const told = finding.series.find(({ name, group }) => name === 'deviation seal-cocked' && group === 'South');
    const [yes, no] = [told?.columns['yes']?.[0] as number, told?.columns['no']?.[0] as number];
    expect(yes / (yes + no)).toBeGreaterThan(0.25);
  });

  test('a shop without an excess has none to account for', async () => {
    const part = of(await answer(deviating), 'West', 'excessWithDeviations');
    expect(part.value).toBeNull();
    expect(part.reason).toContain('no excess');
  });

  test('an excess that nothing was written down of stays', async () => {
    const shops = deviating.shops.map(({ name, trailer }) => ({
      name,
      trailer,
      ratio: name === 'South' ? 2.4 : 1,
      cocked: 0.05,
    }));
    const finding = await answer({ ...deviating, shops });
    const part = of(finding, 'South', 'excessWithDeviations');
    expect(part.upper).toBeLessThan(0.3);
  });
});
