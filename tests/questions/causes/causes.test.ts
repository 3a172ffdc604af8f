import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { ask, type AskOptions } from '../../../lib/questions/index.ts';
import { mechanisms } from '../../../lib/questions/words/mechanism-words.ts';
import { deviationCodes } from '../../../shared/deviations.ts';
import { findingSchema, shownLimits, type Finding, type Group } from '../../../shared/finding.ts';
import { viewSchema, type View } from '../../../shared/view.ts';
import { fleet, many, type Episode, type Life } from '../fleet.ts';
import { plantedLives } from './planted.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

async function answer(
  lives: readonly Life[],
  view: Partial<View> = {},
  options: AskOptions = {},
  episodes?: readonly Episode[],
): Promise<Finding> {
  const source = await fleet(engine, lives, episodes);
  return findingSchema.parse(await ask(source, 'causes', viewSchema.parse(view), undefined, options));
}

const groupOf = (finding: Finding, label: string): Group => {
  const found = finding.groups.find((group) => group.label === label);
  if (!found) throw new Error(`no group ${label}`);
  return found;
};
const limits = (group: Group, name: string) => {
  const estimate = group.estimates[name];
  if (!estimate) throw new Error(`no ${name}`);
  return shownLimits(estimate);
};
const holds = (group: Group, name: string, truth: number) => {
  const { lower, upper } = limits(group, name);
  return (lower ?? 0) <= truth && truth <= (upper ?? Infinity);
};

// Constant hazards: the marginal truth of every ratio is what was planted (no frailty, nothing left out).
describe('a ratio of 2.5 planted, more often in the shop whose seals fail three times as often', () => {
  let finding: Finding;
  beforeAll(async () => {
    finding = await answer(plantedLives({ vehicles: 700, seed: 1, ratio: 2.5, shares: [0.1, 0.5], shopRatio: 3 }));
  }, 60_000);

  test('crude misleads; adjusted, early, later and within vehicles hold what was planted', () => {
    const group = groupOf(finding, 'seal-cocked');
    expect(holds(group, 'crudeHazardRatio', 2.5)).toBe(false);
    for (const name of [
      'hazardRatio',
      'hazardRatioWithOthers',
      'earlyHazardRatio',
      'laterHazardRatio',
      'sameVehicleHazardRatio',
      'otherSideHazardRatio',
    ])
      expect(holds(group, name, 2.5), name).toBe(true);
  });

  test('the excess share holds that of the planted fleet, worked from its exponentials', () => {
    // By 100,000 miles: 1 − exp(−h·m·100,000/250,000), over shops and what is known to be with it.
    const failed = (times: number) => 1 - Math.exp((-times * 100_000) / 250_000);
    const withIt = [0.1, 0.5].map((share) => share * 0.8);
    const over = [1, 3].map((shop, at) => {
      const [share, all] = [withIt[at] as number, [0.1, 0.5][at] as number];
      const silent = all - share;
      const asRecorded = share * failed(2.5 * shop) + silent * failed(2.5 * shop) + (1 - all) * failed(shop);
      return { asRecorded, without: asRecorded - share * (failed(2.5 * shop) - failed(shop)) };
    });
    const total = (of: 'asRecorded' | 'without') => over.reduce((sum, one) => sum + one[of] / 2, 0);
    const group = groupOf(finding, 'seal-cocked');
    expect(holds(group, 'excessShareAtHorizon', 1 - total('without') / total('asRecorded'))).toBe(true);
    expect(holds(group, 'excessFailuresPerThousand', 1000 * (total('asRecorded') - total('without')))).toBe(true);
  });

  test('it stands first, firm, and the answer says so without "caused"', () => {
    expect(finding.groups[0]?.label).toBe('seal-cocked');
    expect(groupOf(finding, 'seal-cocked').firmness).toBe('firm');
    expect(finding.answer).toMatch(/^Seals leak 2\.\d times as often/);
    expect(finding.further).toMatch(/goes with/);
    expect(
      finding.answer +
        finding.further +
        finding.firmnessReason +
        finding.groups.flatMap(({ notes }) => notes).join(' '),
    ).not.toMatch(/caus/);
  });

  test('a decoy that goes with the shop alone misleads crude and is no finding once adjusted', () => {
    const decoy = groupOf(finding, 'dirty-cavity');
    expect(limits(decoy, 'crudeHazardRatio').lower).toBeGreaterThan(1);
    expect(holds(decoy, 'hazardRatio', 1)).toBe(true);
    expect(decoy.counts['pCorrected']).toBeGreaterThan(0.05);
  });

  test('where it cannot exist it is no "no"; never recorded is said', () => {
    const nowhere = groupOf(finding, 'end-play-high');
    expect(nowhere).toMatchObject({ lives: 0, firmness: 'too few' });
    expect(nowhere.counts).toMatchObject({ livesWithout: 0, livesUnknown: 0, livesNotApplicable: 2800 });
    expect(finding.doubts.find(({ name }) => name === 'Never recorded')?.detail).toMatch(
      /not recorded is not the same as not done/,
    );
  });

  test('not known is a level of its own, bounded both ways', () => {
    const group = groupOf(finding, 'seal-cocked');
    const { lives, counts, estimates } = group;
    expect(lives + (counts['livesWithout'] ?? 0) + (counts['livesUnknown'] ?? 0)).toBe(2800);
    expect(counts['livesUnknown']).toBeGreaterThan(400);
    // A fifth silent at random waters either reading down.
    for (const name of ['hazardRatioIfUnknownYes', 'hazardRatioIfUnknownNo'])
      expect(estimates[name]?.value).toBeLessThan(estimates['hazardRatio']?.value ?? 0);
  });
});

test('of decoys in forty fleets without any effect, at most one in twenty is flagged, give or take chance', async () => {
  let [flagged, asked] = [0, 0];
  for (let seed = 100; seed < 140; seed++) {
    const lives = plantedLives({ vehicles: 90, seed, shares: [0.1, 0.5], shopRatio: 2 });
    let first: Finding | null = null;
    await answer(lives, {}, { onFirst: (finding) => (first = finding) });
    for (const label of ['seal-cocked', 'dirty-cavity']) {
      const { counts } = groupOf(first as unknown as Finding, label);
      if (counts['pCorrected'] === undefined) continue;
      asked++;
      if (counts['pCorrected'] < 0.05) flagged++;
    }
  }
  expect(asked).toBeGreaterThan(70);
  // Binomial of 80 at 5 %: nine or more come by chance once in fifty.
  expect(flagged).toBeLessThanOrEqual(8);
}, 240_000);

test('what vehicles differ in and nobody wrote down: the other side disagrees, and says so', async () => {
  const finding = await answer(plantedLives({ vehicles: 1200, seed: 7, shares: [0.2, 0.2], hiddenRatio: 6 }));
  const group = groupOf(finding, 'seal-cocked');
  expect(limits(group, 'hazardRatio').lower).toBeGreaterThan(1.2);
  expect(holds(group, 'sameVehicleHazardRatio', 1)).toBe(true);
  expect(group.notes?.join(' ')).toMatch(/it disagrees with the adjusted ratio/);
  expect(group.counts['discordantPairs']).toBeGreaterThan(100);
  expect(group.firmness).not.toBe('firm');
  expect(finding.doubts.find(({ name }) => name === 'Other side')?.state).toBe('fails');
}, 60_000);

test('nothing hidden: the other side agrees with the same vehicles', async () => {
  const finding = await answer(plantedLives({ vehicles: 1200, seed: 8, ratio: 2 }));
  expect(groupOf(finding, 'seal-cocked').notes?.join(' ')).toMatch(/; it agrees\./);
}, 60_000);

/** Lives alike but for what a test is about. */
const lives = (count: number, name: string, life: (place: number) => Life): Life[] =>
  many(count, (place) => ({
    ...{
      life_id: `${name}${place}`,
      unit_id: `${name}${place}`,
      shop: 'Ambleford',
      role: 'drive',
      install_date: '2020-01-01',
    },
    ...{ exit_miles: 50_000 + 100 * place, ...life(place) },
  }));
const leak = { state: 'failed', mode: 'seal-inner' };

test('no common ground, no comparison: all of it in one shop, none of it elsewhere', async () => {
  const finding = await answer([
    ...lives(40, 'A', (place) => ({ dev_seal_cocked: 'yes', shop: 'Brackwell', ...(place % 2 ? leak : {}) })),
    ...lives(40, 'B', (place) => ({ dev_seal_cocked: 'no', ...(place % 2 ? leak : {}) })),
  ]);
  const group = groupOf(finding, 'seal-cocked');
  expect(group.estimates['hazardRatio']).toMatchObject({ value: null });
  expect(group.estimates['hazardRatio']?.reason).toMatch(/no common ground.*shop/);
  expect(finding.doubts.find(({ name }) => name === 'Common ground')?.detail).toMatch(/seal cocked/);
});

test('too few for a ratio: counts and exact bounds; a safety-critical one is listed case by case', async () => {
  const finding = await answer([
    ...lives(3, 'A', () => ({ dev_lock_not_engaged: 'yes', ...leak })),
    ...lives(60, 'B', (place) => ({ dev_lock_not_engaged: 'no', ...(place % 3 === 0 ? leak : {}) })),
  ]);
  const group = groupOf(finding, 'lock-not-engaged');
  expect(group).toMatchObject({ lives: 3, failures: 3, firmness: 'too few' });
  const crude = group.estimates['crudeHazardRatio'];
  expect(crude).toMatchObject({ value: null, method: 'exact bounds of the ratio of crude rates' });
  expect(crude?.lower).toBeGreaterThan(0.5);
  expect(crude?.reason).toBe('fewer than 5 failures with it: 3');
  expect(group.notes?.at(-1)).toMatch(/changed on mechanism, not on statistics.*3 failed cases: vehicle A0/);
});

test('every exposed one failed, and early: a ratio without end keeps its lower limit', async () => {
  const finding = await answer([
    ...lives(8, 'A', (place) => ({ dev_seal_cocked: 'yes', ...leak, exit_miles: 1000 + place })),
    ...lives(60, 'B', (place) => ({
      dev_seal_cocked: 'no',
      exit_miles: 60_000 + place,
      ...(place % 3 === 0 ? leak : {}),
    })),
  ]);
  const group = groupOf(finding, 'seal-cocked');
  expect(group.estimates['hazardRatio']).toMatchObject({ value: null, upper: null });
  expect(group.estimates['hazardRatio']?.lower).toBeGreaterThan(1);
});

test('a chosen attribute is ranked beside the deviations, each value against the most common', async () => {
  const finding = await answer(
    [
      ...lives(60, 'A', (place) => ({ seal_lot: 'K1', ...(place % 3 === 0 ? leak : {}) })),
      ...lives(40, 'B', (place) => ({
        seal_lot: 'K2',
        ...(place % 3 !== 0 ? leak : {}),
        exit_miles: 20_000 + 50 * place,
      })),
    ],
    { by: ['seal_lot'] },
  );
  expect(finding.groups[0]).toMatchObject({ label: 'K2', by: { seal_lot: 'K2' }, lives: 40 });
  expect(finding.groups[0]?.counts).toMatchObject({ livesWithout: 60, failuresWithout: 20 });
  expect(finding.groups.some(({ by }) => by['seal_lot'] === 'K1')).toBe(false);
  expect(limits(finding.groups[0] as Group, 'hazardRatio').lower).toBeGreaterThan(1);
});

describe('what deviations are held against', () => {
  const some = [
    ...lives(20, 'A', () => ({ dev_underfilled: 'yes', install_miles: 0 })),
    ...lives(20, 'B', (place) => ({ dev_underfilled: 'no', install_miles: 0, ...(place < 8 ? leak : {}) })),
  ];
  const found: Episode[] = [
    ...many(6, (place) => ({ life: `A${place}`, mode: 'bearing', component: 'bearing' })),
    ...many(8, (place) => ({ life: `B${place}`, mode: 'seal-inner', component: 'seal', lining: 'yes' as const })),
  ];
  const failures = async (view: Partial<View>) => {
    const { lives: with_, failures: own, counts } = groupOf(await answer(some, view, {}, found), 'underfilled');
    return [with_, own, counts['failuresWithout']];
  };

  test('seal failures, any failure, bearing failures at the wheel end, soaked linings', async () => {
    expect(await failures({})).toEqual([20, 0, 8]);
    expect(await failures({ outcome: 'any' })).toEqual([20, 6, 8]);
    expect(await failures({ mode: 'bearing' })).toEqual([20, 6, 0]);
    expect(await failures({ outcome: 'lining' })).toEqual([20, 0, 8]);
  });
});

test('a chosen deviation is looked into: without each shop and year, by shop and build, and shadows of chance', async () => {
  const finding = await answer(plantedLives({ vehicles: 300, seed: 3, ratio: 2.5 }), { deviation: 'seal-cocked' });
  const named = (name: string) => finding.series.filter((series) => series.name === name);
  expect(
    named('without-one-shop')
      .map(({ group }) => group)
      .sort(),
  ).toEqual(['Ambleford', 'Brackwell']);
  expect(named('without-one-year')).toHaveLength(3);
  // Without one of two shops is within the other.
  const of = (name: string, group: string) =>
    named(name).find((series) => series.group === group)?.columns['ratio']?.[0];
  expect(of('without-one-shop', 'Ambleford')).toBeCloseTo(of('one-shop', 'Brackwell') ?? NaN, 9);
  const ratios = (named('shadow')[0]?.columns['ratio'] ?? []).map(Number);
  const inside = ratios.filter(
    (ratio) => ratio < (groupOf(finding, 'seal-cocked').estimates['hazardRatio']?.value ?? 0),
  );
  expect(ratios.length).toBeGreaterThanOrEqual(100);
  expect(inside).toHaveLength(ratios.length);
  expect(ratios.reduce((sum, ratio) => sum + Math.log(ratio), 0) / ratios.length).toBeCloseTo(0, 1);
}, 120_000);

test('the ranking comes first, then the rest, with progress; whoever cancels is heard', async () => {
  const told: string[] = [];
  const early: Finding[] = [];
  const some = plantedLives({ vehicles: 60, seed: 4, ratio: 3 });
  const whole = await answer(
    some,
    {},
    { onProgress: ({ doing }) => told.push(doing), onFirst: (one) => early.push(one) },
  );
  expect(new Set(told)).toEqual(
    new Set(['ranking', 'early and later, the other side, excess failures', 'shadows, what chance alone shows']),
  );
  const first = findingSchema.parse(early[0]);
  expect(groupOf(first, 'seal-cocked').estimates['hazardRatio']).toEqual(
    groupOf(whole, 'seal-cocked').estimates['hazardRatio'],
  );
  expect(groupOf(first, 'seal-cocked').estimates['earlyHazardRatio']).toBeUndefined();
  const cancel = new AbortController();
  const source = await fleet(engine, some);
  const asked = ask(source, 'causes', viewSchema.parse({}), cancel.signal, {
    onFirst: () => cancel.abort(new Error('enough')),
  });
  await expect(asked).rejects.toThrow('enough');
});

test('nothing to compare is said, not shown as nothing found', async () => {
  const none = await answer([{ exit_miles: 1000, install_kind: 'original' }]);
  expect(none.answer).toMatch(/^No lives match this choice/);
  const silent = await answer(lives(30, 'A', (place) => (place % 2 ? leak : {})));
  expect(silent.answer).toMatch(/^Too few to compare: no deviation is recorded at any installation/);
  expect(silent.firmness).toBe('too few');
});

test('every deviation has its mechanism note', () => {
  expect(Object.keys(mechanisms).sort()).toEqual([...deviationCodes].sort());
});
