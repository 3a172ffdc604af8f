import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { ask } from '../../../lib/questions/index.ts';
import { findingSchema, type Finding } from '../../../shared/finding.ts';
import { viewSchema } from '../../../shared/view.ts';
import { fleet, type Life } from '../fleet.ts';
import { plantedHazard, plantedSavings, plantedShare } from './planted-savings.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(async () => {
  await engine.close();
});

const both = { saving: ['seal-cocked', 'dirty-cavity'], savingTo: 'zero' } as const;
const saved = async (lives: readonly Life[], view: Record<string, unknown>) =>
  findingSchema.parse(await ask(await fleet(engine, lives), 'savings', viewSchema.parse(view)));
const of = (finding: Finding, label: string, name: string) =>
  finding.groups.find((group) => group.label === label)?.estimates[name];
const all = 'all of these together';

describe('against R', () => {
  // R 4.2 survival 3.5 on these lives: coxph(Surv(exit, event) ~ role + lubricant + year + cocked + dirty + strata(shop)),
  // share 1 − mean over failures of exp(−βx) (Bruzzi 1985), F(100,000 miles) by basehaz averaged over the lives.
  const lives = plantedSavings(7);

  test('ratios, joint share and failures of 1,000, both gone', async () => {
    const finding = await saved(lives, both);
    expect(of(finding, 'seal-cocked', 'hazardRatio')?.value).toBeCloseTo(4.393458116, 6);
    expect(of(finding, 'dirty-cavity', 'hazardRatio')?.value).toBeCloseTo(1.743124276, 6);
    expect(of(finding, all, 'failuresFewerShare')?.value).toBeCloseTo(0.2575729865, 7);
    expect(of(finding, all, 'failuresFewerPerThousand')?.value).toBeCloseTo(67.44999803, 4);
    expect(of(finding, all, 'failuresFewerPerYear')?.value).toBeCloseTo(15.76470742, 5);
  });

  test('as money: each failure fewer at the cost entered', async () => {
    const costs = { failureCost: 500, downtimeCost: 100, liningCost: 0, roadCallCost: 0 };
    const finding = await saved(lives, { ...both, ...costs });
    // 600 each, of the failures fewer above.
    expect(of(finding, all, 'moneySavedPerThousand')?.value).toBeCloseTo(600 * 67.44999803, 1);
    expect(of(finding, all, 'moneySavedPerYear')?.value).toBeCloseTo(600 * 15.76470742, 2);
    expect(finding.further).toMatch(/At 600 a leak that is .* costs are assumptions until entered/);
    const other = await saved(lives, { ...both, ...costs, outcome: 'any' });
    expect(of(other, all, 'moneySavedPerThousand')).toBeUndefined();
  });

  test('one of them gone, and half of it', async () => {
    const finding = await saved(lives, { ...both, saving: ['seal-cocked'] });
    expect(of(finding, 'seal-cocked', 'failuresFewerShare')?.value).toBeCloseTo(0.1571947182, 7);
    const share = of(finding, 'seal-cocked', 'prevalence')?.value as number;
    const half = await saved(lives, { saving: ['seal-cocked'], savingLevels: { 'seal-cocked': share / 2 } });
    expect(of(half, 'seal-cocked', 'failuresFewerShare')?.value).toBeCloseTo(0.07859735911, 7);
  });
});

test('with one deviation gone the share is the classical attributable fraction, p (1 − 1/ratio)', async () => {
  const finding = await saved(plantedSavings(8), { saving: ['seal-cocked'], savingTo: 'zero' });
  const [group] = finding.groups;
  const exposed = (group?.failures ?? 0) / finding.data.failures;
  const ratio = group?.estimates['hazardRatio']?.value as number;
  expect(group?.estimates['failuresFewerShare']?.value).toBeCloseTo(exposed * (1 - 1 / ratio), 9);
});

test('together is less than the sum of each alone: no failure is saved twice', async () => {
  const finding = await saved(plantedSavings(9), both);
  const alone = both.saving.map((code) => of(finding, code, 'failuresFewerShare')?.value as number);
  expect(of(finding, all, 'failuresFewerShare')?.value).toBeLessThan(alone.reduce((sum, one) => sum + one, 0));
});

test('the lowest share of the shops is fallen to, and nothing is saved where it is reached', async () => {
  const lives = plantedSavings(7);
  const finding = await saved(lives, { saving: ['seal-cocked'] });
  const shares = ['Alpha', 'Beta', 'Gamma', 'Delta'].map((shop) => {
    const own = lives.filter((life) => life['shop'] === shop);
    return own.filter((life) => life['dev_seal_cocked'] === 'yes').length / own.length;
  });
  expect(of(finding, 'seal-cocked', 'fallsTo')?.value).toBeCloseTo(Math.min(...shares), 10);
  const reached = await saved(lives, { saving: ['seal-cocked'], savingLevels: { 'seal-cocked': 0.9 } });
  expect(of(reached, 'seal-cocked', 'failuresFewerPerThousand')?.value).toBe(0);
});

test('where one shop alone is looked at it has no best, and none at all is taken', async () => {
  const lives = plantedSavings(7).filter((life) => life['shop'] === 'Beta');
  const finding = await saved(lives, { saving: ['seal-cocked'] });
  expect(of(finding, 'seal-cocked', 'fallsTo')?.value).toBe(0);
  expect(finding.further).toMatch(/No two shops here tell of enough jobs/);
  expect(finding.groups[0]?.notes?.[0]).toMatch(/to none at all: no two shops/);
});

test('the planted saving lies within the limits of most fleets', async () => {
  // Expected over the frailty (Laplace transform of the gamma), were nothing cocked or dirty, against as planted.
  const failed = (hazard: number) => 1 - (1 + plantedHazard.frailty * hazard) ** (-1 / plantedHazard.frailty);
  const cells = [0, 1].flatMap((cocked) => [0, 1].map((dirty) => ({ cocked, dirty })));
  const truth = [0.4, 1.2, 1.2, 1.2].reduce((sum, often) => {
    const [c, d] = [plantedShare.cocked * often, plantedShare.dirty * often];
    const own = cells.reduce((inner, { cocked, dirty }) => {
      const chance = (cocked === 1 ? c : 1 - c) * (dirty === 1 ? d : 1 - d);
      const hazard =
        plantedHazard.base *
        100_000 *
        (cocked === 1 ? plantedHazard.cocked : 1) *
        (dirty === 1 ? plantedHazard.dirty : 1);
      return inner + chance * failed(hazard);
    }, 0);
    return sum + (own - failed(plantedHazard.base * 100_000)) / 4;
  }, 0);
  let held = 0;
  for (let seed = 21; seed < 29; seed++) {
    const estimate = of(await saved(plantedSavings(seed, 250), both), all, 'failuresFewerPerThousand');
    if ((estimate?.lower ?? Infinity) <= 1000 * truth && (estimate?.upper ?? 0) >= 1000 * truth) held++;
  }
  expect(held).toBeGreaterThanOrEqual(7);
});

describe('what is thin is refused or marked', () => {
  const rare = plantedSavings(7).map((life, at) => ({ ...life, dev_spacer_missing: at % 700 === 0 ? 'yes' : 'no' }));

  test('a deviation with too few failures has no saving, and says why; safety-critical ones are changed on mechanism', async () => {
    const finding = await saved(rare, { saving: ['spacer-missing'], savingTo: 'zero' });
    const [group] = finding.groups;
    expect(group?.estimates['failuresFewerPerThousand']?.value).toBeNull();
    expect(group?.notes?.join(' ')).toContain('Changed on mechanism');
    expect(finding.firmness).toBe('too few');
    expect(finding.cautions[0]).toContain('Changed on mechanism');
  });

  test('nothing stands out: none is taken by default', async () => {
    const finding = await saved(
      plantedSavings(7).map((life) => ({ ...life, dev_seal_cocked: 'no', dev_dirty_cavity: 'no' })),
      {},
    );
    expect(finding.answer).toContain('No deviation surely goes with more failures');
  });

  test('never firm: what would go with the deviations is assumed', async () => {
    expect(['fair', 'thin']).toContain((await saved(plantedSavings(7), both)).firmness);
  });
});
