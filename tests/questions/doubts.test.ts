import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { fewFailures } from '../../lib/questions/doubts/few-failures.ts';
import { leaveOneOut } from '../../lib/questions/doubts/leave-one-out.ts';
import { likeForLike } from '../../lib/questions/doubts/like-for-like.ts';
import { liningUnknown } from '../../lib/questions/doubts/lining-unknown.ts';
import { manyComparisons } from '../../lib/questions/doubts/many-comparisons.ts';
import { setAsideRows } from '../../lib/questions/doubts/set-aside-rows.ts';
import {
  estimatedMiles,
  inferredFailures,
  unknownStarts,
  unplacedEpisodes,
} from '../../lib/questions/doubts/shares.ts';
import { unknownExposure } from '../../lib/questions/doubts/unknown-exposure.ts';
import { vehicleClustering } from '../../lib/questions/doubts/vehicle-clustering.ts';
import { ask } from '../../lib/questions/index.ts';
import type { Doubt, Estimate } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { account, fleet, many, type Life } from './fleet.ts';

const state = (doubt: Doubt | null) => doubt?.state ?? null;
const pair = { compared: 0, reference: 1, pairs: 1 };

test('few failures', () => {
  expect(fewFailures([{ label: 'all', failures: 15 }], 'leak')).toMatchObject({
    state: 'holds',
    detail: 'There are 15 leaks.',
  });
  expect(fewFailures([{ label: 'all', failures: 1 }], 'leak')).toMatchObject({
    state: 'fails',
    detail: 'There is only 1 leak.',
  });
  expect(fewFailures([{ label: 'all', failures: 0 }], 'leak').detail).toBe('There are no leaks.');
  expect(
    fewFailures(
      [
        { label: 'oil', failures: 40 },
        { label: 'packed', failures: 4 },
      ],
      'leak',
    ).detail,
  ).toBe('Fewer than 15 leaks: packed (4). Groups under 5 are shown and not compared.');
});

test('many comparisons fail where the correction takes the difference away', () => {
  const compared = { ...pair, ratio: { value: 2, lower: 1, upper: 4 } };
  expect(manyComparisons({ ...compared, pairs: 10, rawPValue: 0.01, pValue: 0.1 })).toMatchObject({
    state: 'fails',
    detail:
      'The worst and the best of 10 pairs were picked: p\u00a0=\u00a00.01 alone, p\u00a0=\u00a00.1 once that is allowed for.',
  });
  expect(state(manyComparisons({ ...compared, pairs: 3, rawPValue: 0.001, pValue: 0.003 }))).toBe('holds');
  expect(manyComparisons({ ...compared, rawPValue: 0.01, pValue: 0.01 })).toBeNull();
});

test('rows set aside fail above one in twenty', () => {
  const of = (read: number, setAside: number) => ({
    ...account,
    setAside,
    files: [{ name: 'a.csv', table: 'services', read, kept: read - setAside, setAside }],
  });
  expect(state(setAsideRows(of(1000, 50)))).toBe('holds');
  expect(setAsideRows(of(1000, 51))).toMatchObject({
    state: 'fails',
    detail: '5.1\u00a0% of rows (51) were set aside. Most in a.csv: 51 of 1,000.',
  });
  expect(setAsideRows(of(0, 0))).toBeNull();
});

test('shares of weak lives', () => {
  expect([30, 31].map((some) => state(estimatedMiles({ some, all: 100 })))).toEqual(['holds', 'fails']);
  expect([20, 21].map((some) => state(inferredFailures({ some, all: 100 })))).toEqual(['holds', 'fails']);
  expect([5, 6].map((some) => state(unplacedEpisodes({ some, all: 100 })))).toEqual(['holds', 'fails']);
  expect([25, 26].map((some) => state(unknownStarts({ some, all: 100 }, 'seals')))).toEqual(['holds', 'fails']);
  expect([inferredFailures, unplacedEpisodes].map((doubt) => doubt({ some: 0, all: 9 }))).toEqual([null, null]);
});

test('what is not known of a deviation', () => {
  const known = { unknown: 25, all: 100, ratio: 4, ifAllYes: 2.1, ifAllNo: 3 };
  // 2.1 is more than half of the way from 1 to 4 on the log scale (2), 1.9 less.
  expect(state(unknownExposure(known))).toBe('holds');
  expect(state(unknownExposure({ ...known, ifAllYes: 1.9 }))).toBe('fails');
  expect(state(unknownExposure({ ...known, unknown: 51 }))).toBe('fails');
  expect(state(unknownExposure({ ...known, unknown: 0 }))).toBe('holds');
  expect(state(unknownExposure({ ...known, ratio: null }))).toBe('cannot-tell');
  // Where there is no difference to lose, the readings may not make one.
  expect(state(unknownExposure({ ...known, ratio: 1.05, ifAllYes: 1.2, ifAllNo: 1 }))).toBe('holds');
  expect(state(unknownExposure({ ...known, ratio: 1.05, ifAllYes: 1.3, ifAllNo: 1 }))).toBe('fails');
});

test('linings not told', () => {
  const told = { soaked: 30, clean: 70, unknown: 10, lower: 0.2, upper: 0.4 };
  expect(state(liningUnknown(told))).toBe('holds');
  expect(state(liningUnknown({ ...told, upper: 0.36 }))).toBe('fails');
  expect(state(liningUnknown({ ...told, unknown: 0, upper: 0.36 }))).toBe('holds');
  expect(liningUnknown({ ...told, soaked: 0, clean: 0, unknown: 0 })).toBeNull();
});

test('wheel ends of one vehicle', () => {
  const estimate: Estimate = {
    value: 2,
    lower: 1,
    upper: 3,
    vehicleLower: 0.5,
    vehicleUpper: 3.5,
    level: 0.95,
    unit: '',
    method: '',
  };
  expect(vehicleClustering(estimate, 50)).toMatchObject({
    state: 'holds',
    detail: expect.stringContaining('1.5 times as wide') as string,
  });
  expect(vehicleClustering({ ...estimate, vehicleLower: 1.2, vehicleUpper: 2.8 }, 50)?.detail).toContain(
    'hardly wider',
  );
  expect(state(vehicleClustering(estimate, 9))).toBe('cannot-tell');
  expect(vehicleClustering({ ...estimate, value: 0 }, 50)).toBeNull();
});

describe('one shop alone', () => {
  /** Events in a million miles each, by shop, of the compared group and then of the reference. */
  const shops = (compared: number[], reference: number[] = []) => {
    const rows = [
      ...compared.map((events, by) => ({ group: 0, by, events })),
      ...reference.map((events, by) => ({ group: 1, by, events })),
    ];
    return {
      group: Int32Array.from(rows, ({ group }) => group),
      by: Int32Array.from(rows, ({ by }) => by),
      events: Float64Array.from(rows, ({ events }) => events),
      watched: Float64Array.from(rows, () => 1e6),
    };
  };
  const names = ['A', 'B', 'C', 'D'];

  test('a rate that no shop moves by a quarter holds', () => {
    // Without the first: (11 + 12 + 9)/3 = 10.67; without the third (10 + 11 + 9)/3 = 10.
    expect(leaveOneOut('shop', shops([10, 11, 12, 9]), 0, 'miles', names)).toMatchObject({
      state: 'holds',
      detail: 'Leaving any one shop out moves the rate per million miles between 10 and 11.',
    });
  });

  test('a rate that one shop carries fails and names it', () => {
    expect(leaveOneOut('shop', shops([40, 5, 5, 5]), 0, 'miles', names)).toMatchObject({
      state: 'fails',
      detail: expect.stringContaining('Most hangs on A') as string,
    });
  });

  test('a ratio that leaving one out takes across 1 fails', () => {
    // 15 to 12 in all; without A 9 to 9.
    expect(state(leaveOneOut('shop', shops([6, 3, 3, 3], [3, 3, 3, 3]), pair, 'miles', names))).toBe('fails');
  });

  test('a side that one shop alone has leaves nothing to go by', () => {
    expect(leaveOneOut('shop', shops([20], [9, 9]), pair, 'miles', names)?.detail).toBe(
      'Without A there is nothing left to go by.',
    );
    expect(leaveOneOut('shop', shops([2, 2]), 0, 'miles', names)).toBeNull();
  });
});

test('like for like', () => {
  const mix = (compared: number, reference: number) =>
    new Map([
      [
        'role',
        new Map([
          ['trailer', Float64Array.of(compared, reference)],
          ['drive', Float64Array.of(100 - compared, 100 - reference)],
        ]),
      ],
    ]);
  expect(state(likeForLike(pair, mix(50, 60), ['yes', 'no']))).toBe('holds');
  expect(likeForLike(pair, mix(50, 61), ['yes', 'no'])).toMatchObject({
    state: 'fails',
    detail:
      'Not yet like for like: the groups differ in axle role; trailer makes 50\u00a0% of the miles of “yes” and 61\u00a0% of “no”.',
  });
  expect(likeForLike(null, mix(50, 61), ['yes', 'no'])).toBeNull();
});

describe('on lives', () => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await openNodeEngine();
  });
  afterAll(() => engine.close());

  const doubtsOf = async (lives: readonly Life[], view: Partial<View> = {}) =>
    (await ask(await fleet(engine, lives), 'seal-life', viewSchema.parse(view))).doubts;
  const named = async (name: string, lives: readonly Life[], view: Partial<View> = {}) =>
    (await doubtsOf(lives, view)).find((doubt) => doubt.name === name) ?? null;

  /** A hundred seals, forty leaking one by one from 1,000 miles on; the rest run on to 200,000. */
  const lives = (change: (place: number) => Life = () => ({})): Life[] =>
    many(100, (place) => ({
      ...(place < 40
        ? { exit_miles: 1000 * (place + 1), state: 'failed', mode: 'seal-inner' }
        : { exit_miles: 200_000 }),
      ...change(place),
    }));

  test('failing doubts come first', async () => {
    const states = (
      await doubtsOf(lives((place) => ({ mileage_quality: place < 50 ? 'interpolated' : 'measured' })))
    ).map((doubt) => doubt.state);
    expect(states).toContain('holds');
    expect(states).toEqual(
      [...states].sort(
        (a, b) => ['fails', 'cannot-tell', 'holds'].indexOf(a) - ['fails', 'cannot-tell', 'holds'].indexOf(b),
      ),
    );
  });

  test('removed for no stated reason: bounded by all of them failed', async () => {
    const some = (count: number) =>
      lives((place) => (place >= 40 && place < 40 + count ? { state: 'removed-unknown', exit_miles: 50_000 } : {}));
    expect(await named('Removed for no stated reason', some(2))).toMatchObject({
      state: 'holds',
      // At 50,000 miles 60 are left: 1 − 0.6 × 58/60.
      detail: expect.stringContaining('42\u00a0% instead of 40\u00a0% would have failed by 100,000 miles') as string,
    });
    expect(state(await named('Removed for no stated reason', some(30)))).toBe('fails');
    expect(await named('Removed for no stated reason', lives())).toBeNull();
  });

  test('found late: bounded by onset right after the last clean check', async () => {
    const checked = (back: number) =>
      lives((place) =>
        place < 40 ? { exit_miles: 90_000 + 500 * place, onset_lower_miles: 90_000 + 500 * place - back } : {},
      );
    // By 100,000 miles 21 had been found; 1,000 miles earlier 23 had begun.
    expect(await named('Found late', checked(1000))).toMatchObject({
      detail: expect.stringContaining('23\u00a0% instead of 21\u00a0%') as string,
      state: 'holds',
    });
    expect(state(await named('Found late', checked(40_000)))).toBe('fails');
    expect(state(await named('Found late', lives()))).toBe('cannot-tell');
    expect(
      await named(
        'Found late',
        lives((place) => ({ onset_lower_miles: place < 40 ? 0 : 1 })),
      ),
    ).toMatchObject({
      state: 'fails',
      detail: expect.stringContaining('100\u00a0% had no clean check before') as string,
    });
  });

  test('late entries', async () => {
    expect(await named('Late entries', lives())).toMatchObject({
      state: 'holds',
      detail: 'Every life was watched from its installation on.',
    });
    const late = (count: number) => lives((place) => (place >= 100 - count ? { entry_miles: 100_000 } : {}));
    expect(state(await named('Late entries', late(50)))).toBe('holds');
    expect(state(await named('Late entries', late(51)))).toBe('fails');
  });

  test('as far as the horizon', async () => {
    expect(await named('As far as the horizon', lives())).toMatchObject({
      state: 'holds',
      detail: '60 lives are still watched at 100,000 miles.',
    });
    expect(state(await named('As far as the horizon', lives(), { horizonMiles: 300_000 }))).toBe('cannot-tell');
    expect(
      state(
        await named(
          'As far as the horizon',
          lives((place) => (place > 45 ? { exit_miles: 60_000 } : {})),
        ),
      ),
    ).toBe('fails');
  });

  test('one shape: a mixture of early failures and wear has none', async () => {
    const weibull = (share: number, scale: number, shape: number) => scale * (-Math.log(1 - share)) ** (1 / shape);
    const drawn = (age: (share: number) => number) =>
      many(400, (place) => ({
        exit_miles: Math.round(age((place + 0.5) / 400)) + 1,
        state: 'failed',
        mode: 'seal-inner',
      }));
    expect(
      state(
        await named(
          'One shape',
          drawn((share) => weibull(share, 200_000, 1.5)),
        ),
      ),
    ).toBe('holds');
    const mixed = drawn((share) =>
      share < 0.3 ? weibull(share / 0.3, 2000, 1) : weibull((share - 0.3) / 0.7, 400_000, 5),
    );
    expect(state(await named('One shape', mixed))).toBe('fails');
  });

  test('the same throughout: groups that change places cross', async () => {
    const cut = (early: number, late: number, duty: string): Life[] => [
      ...many(early, (place) => ({
        life_id: `${duty}e${place}`,
        unit_id: `${duty}e${place}`,
        duty,
        exit_miles: 1000 + place,
        state: 'failed',
        mode: 'seal-inner',
      })),
      ...many(late, (place) => ({
        life_id: `${duty}l${place}`,
        unit_id: `${duty}l${place}`,
        duty,
        exit_miles: 90_000 + place,
        state: 'failed',
        mode: 'seal-inner',
      })),
      ...many(200 - early - late, (place) => ({
        life_id: `${duty}r${place}`,
        unit_id: `${duty}r${place}`,
        duty,
        exit_miles: 150_000,
      })),
    ];
    const crossing = await named('The same throughout', [...cut(60, 10, 'a'), ...cut(10, 60, 'b')], { by: ['duty'] });
    expect(crossing).toMatchObject({
      state: 'fails',
      detail: expect.stringContaining('The groups change places') as string,
    });
    const lasting = await named('The same throughout', [...cut(60, 60, 'a'), ...cut(20, 30, 'b')], { by: ['duty'] });
    expect(lasting).toMatchObject({ state: 'holds' });
  });

  test('a safety-critical deviation lists its cases however few', async () => {
    const carrying = lives((place) => ({ dev_lock_not_engaged: place < 2 ? 'yes' : 'no', end_id: `F${place}` }));
    expect(await named('Safety-critical', carrying, { by: ['dev_lock_not_engaged'] })).toMatchObject({
      state: 'cannot-tell',
      detail:
        'Few failures do not make “lock not engaged” safe. 2 failed cases: vehicle U0, axle 1 left: seal-inner after 1,000 miles (F0); vehicle U1, axle 1 left: seal-inner after 2,000 miles (F1).',
    });
    expect(
      await named(
        'Safety-critical',
        lives((place) => ({ dev_underfilled: place < 2 ? 'yes' : 'no' })),
        { by: ['dev_underfilled'] },
      ),
    ).toBeNull();
  });

  test('an adjustment asked for and not made stands against the answer', async () => {
    expect(await named('Not adjusted', lives(), { adjust: ['role'] })).toMatchObject({ state: 'fails' });
  });
});
