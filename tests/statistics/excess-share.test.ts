import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { excessShare, type ExcessShareOptions } from '../../lib/statistics/excess-share.ts';
import { createRandom } from '../../lib/statistics/numeric/random.ts';
import type { SurvivalData } from '../../lib/statistics/survival-data.ts';
import { drawExcessFleet, EXCESS_PLAN, trueFailed } from '../simulation/excess-fleet.ts';

interface Row {
  readonly exit: number;
  readonly event: 0 | 1;
  readonly x: number;
  readonly entry?: number;
  readonly shop?: string;
}
const rows = (count: number, row: Row): Row[] => Array.from({ length: count }, () => row);
const lives = (all: readonly Row[]) => ({
  exit: all.map(({ exit }) => exit),
  event: all.map(({ event }) => event),
  entry: all.map(({ entry = 0 }) => entry),
  strata: all.map(({ shop = 'a' }) => shop),
  covariates: { x: Float64Array.from(all, ({ x }) => x) },
});
const share = (data: SurvivalData, options: Partial<ExcessShareOptions> = {}) =>
  excessShare(data, { exposure: 'x', horizon: 10, ties: 'breslow', draws: 200, random: createRandom(1), ...options });
const failed = (hazard: number) => -Math.expm1(-hazard);

// Two of four exposed and one of five others fail at 3; one of the two exposed and two of the four others left at 8.
const COUNTED = [
  ...rows(2, { exit: 3, event: 1, x: 1 }),
  ...rows(1, { exit: 3, event: 1, x: 0 }),
  ...rows(1, { exit: 8, event: 1, x: 1 }),
  ...rows(2, { exit: 8, event: 1, x: 0 }),
  ...rows(1, { exit: 12, event: 0, x: 1 }),
  ...rows(2, { exit: 12, event: 0, x: 0 }),
];

// Breslow with one event time a piece: the ratio is that of the shares failing, the hazard that of the unexposed.
describe('excessShare by hand, from counts', () => {
  it('early and later ratio', () => {
    // Early ratio (2/4)/(1/5) on a hazard of 1/5, later (1/2)/(2/4) = 1 on one of 2/4.
    const got = share(lives(COUNTED), { cut: 5 });
    const [exposed, others] = [failed(2.5 / 5 + 1 / 2), failed(1 / 5 + 1 / 2)];
    const all = (4 * exposed + 5 * others) / 9;
    expect(got.value).toBeCloseTo(1 - others / all, 10);
    expect(got.failedWithExposure.value).toBeCloseTo(all, 10);
    expect(got.failedWithoutExposure.value).toBeCloseTo(others, 10);
    expect(got.excessPerThousand.value).toBeCloseTo(1000 * (all - others), 7);
    expect(got.exposedShare).toBeCloseTo(4 / 9, 12);
    expect(got).toMatchObject({
      lives: 9,
      failures: 6,
      exposedFailures: 3,
      clusters: 9,
      exposedWatchedTo: 10,
      leftOut: 0,
    });
    expect(got.lower).toBeLessThan(got.value as number);
    expect(got.upper).toBeGreaterThan(got.value as number);
  });

  it('what happens after the horizon does not bear on it, what happens at it does', () => {
    const got = share(lives(COUNTED), { horizon: 3 });
    const [exposed, others] = [failed(1 / 2), failed(1 / 5)];
    expect(got.value).toBeCloseTo(1 - others / ((4 * exposed + 5 * others) / 9), 10);
    expect(share(lives(COUNTED), { horizon: 7.9 }).value).toBeCloseTo(got.value as number, 10);
  });

  it('a life that came late counts for those like it that failed unseen', () => {
    // One more unexposed from 4 on: later hazard of the unexposed 2/5, ratio (1/2)/(2/5), its weight 1/S(4) = e^(1/5).
    const late = { exit: 12, event: 0, x: 0, entry: 4 } as const;
    const got = share(lives([...COUNTED, late]), { cut: 5 });
    const [exposed, others, weight] = [failed(2.5 / 5 + 1 / 2), failed(1 / 5 + 2 / 5), Math.exp(1 / 5)];
    const all = (4 * exposed + (5 + weight) * others) / (9 + weight);
    expect(got.failedWithExposure.value).toBeCloseTo(all, 10);
    expect(got.value).toBeCloseTo(1 - others / all, 10);
    expect(got.exposedShare).toBeCloseTo(4 / (9 + weight), 12);
  });

  it('each stratum has its own hazard', () => {
    // Ratio 2 in both: 4 of 8 against 1 of 4 at shop a, 2 of 10 against 1 of 10 at shop b.
    const shop = (name: string, counts: [number, number, number, number]) => [
      ...rows(counts[0], { exit: 3, event: 1, x: 1, shop: name }),
      ...rows(counts[1], { exit: 12, event: 0, x: 1, shop: name }),
      ...rows(counts[2], { exit: 3, event: 1, x: 0, shop: name }),
      ...rows(counts[3], { exit: 12, event: 0, x: 0, shop: name }),
    ];
    const all = [...shop('a', [4, 4, 1, 3]), ...shop('b', [2, 8, 1, 9])];
    const got = share(lives(all));
    const asRecorded = 8 * failed(2 / 4) + 4 * failed(1 / 4) + 10 * failed(2 / 10) + 10 * failed(1 / 10);
    const without = 12 * failed(1 / 4) + 20 * failed(1 / 10);
    expect(got.value).toBeCloseTo(1 - without / asRecorded, 9);
    // A third shop watched to 9 only is not spoken of.
    const short = [...all, ...rows(3, { exit: 9, event: 0, x: 1, shop: 'c' })];
    const again = share(lives(short));
    expect(again.value).toBeCloseTo(got.value as number, 12);
    expect(again.leftOut).toBe(3);
    // Nor one that nobody is watched in between 4 and 6.
    const gap = [
      ...rows(2, { exit: 4, event: 1, x: 1, shop: 'c' }),
      ...rows(3, { exit: 12, event: 0, x: 0, shop: 'c', entry: 6 }),
    ];
    expect(share(lives([...all, ...gap])).leftOut).toBe(5);
  });

  it('a level that is not named stays what it is', () => {
    // Shares failing 1/5 of no, 2/4 of yes, 3/4 of unknown: ratios 5/2 and 15/4.
    const codes = [...Array<number>(5).fill(0), ...Array<number>(4).fill(1), ...Array<number>(4).fill(2)];
    const event = [1, 0, 0, 0, 0, 1, 1, 0, 0, 1, 1, 1, 0];
    const data = {
      exit: event.map((one) => (one ? 3 : 12)),
      event,
      covariates: { x: { levels: ['no', 'yes', 'unknown'], codes } },
    };
    const [no, yes, unknown] = [failed(1 / 5), failed(1 / 2), failed(3 / 4)];
    const all = 5 * no + 4 * yes + 4 * unknown;
    expect(share(data, { levels: ['yes'] }).value).toBeCloseTo(1 - (9 * no + 4 * unknown) / all, 9);
    expect(share(data).value).toBeCloseTo(1 - (13 * no) / all, 9);
    expect(share(data, { levels: ['yes'] }).exposedShare).toBeCloseTo(4 / 13, 12);
  });

  it('a covariate of which some never fail is still adjusted for', () => {
    const sound = rows(3, { exit: 12, event: 0, x: 1 });
    const all = [...COUNTED, ...sound];
    const type = all.map((_, row) => (row < COUNTED.length ? 0 : 1));
    const data = lives(all);
    const got = share({ ...data, covariates: { type, ...data.covariates } }, { cut: 5 });
    const [exposed, others] = [failed(2.5 / 5 + 1 / 2), failed(1 / 5 + 1 / 2)];
    expect(got.value).toBeCloseTo(1 - (9 * others) / (4 * exposed + 5 * others), 7);
    expect(got.failedWithExposure.value).toBeCloseTo((4 * exposed + 5 * others) / 12, 7);
    expect(got.upper).toBeGreaterThan(got.value as number);
  });
});

describe('excessShare gives no answer, and says why', () => {
  const expectNone = (got: ReturnType<typeof share>, reason: RegExp) => {
    expect(got).toMatchObject({ value: null, lower: null, upper: null, exposedShare: null });
    expect(got.excessPerThousand).toEqual({ value: null, lower: null, upper: null });
    expect(got.reason).toMatch(reason);
  };

  it('nobody watched to the horizon', () => expectNone(share(lives(COUNTED), { horizon: 13 }), /watched all the way/));
  it('nothing failed by the horizon', () => expectNone(share(lives(COUNTED), { horizon: 2 }), /nothing failed/));
  it('a side is empty', () => {
    const of = (x: number) => lives(COUNTED.map((row) => ({ ...row, x })));
    expectNone(share(of(0)), /no life has/);
    expectNone(share(of(1)), /every life has/);
  });
  it('none of the exposed failed in a piece', () => {
    const spared = COUNTED.map((row) => (row.x === 1 && row.exit === 8 ? ({ ...row, event: 0 } as const) : row));
    expectNone(share(lives(spared), { cut: 5 }), /nothing bounds the ratio of x, later/);
    expect(share(lives(spared)).value).not.toBeNull();
  });
  it('only the exposed failed', () => {
    const only = COUNTED.map((row) => (row.x === 0 ? ({ ...row, event: 0 } as const) : row));
    expectNone(share(lives(only)), /nothing bounds/);
  });
  it('nobody exposed is watched after the cut', () => {
    const gone = COUNTED.map((row) => (row.x === 1 && row.exit > 5 ? ({ ...row, exit: 4, event: 0 } as const) : row));
    expectNone(share(lives(gone), { cut: 5 }), /nothing can be told of x, later=1/);
  });
  it('the exposure always goes with another covariate', () => {
    const data = lives(COUNTED);
    expectNone(share({ ...data, covariates: { twin: data.covariates.x, ...data.covariates } }), /goes with another/);
  });
  it('one cluster, or one of the exposed, gives a value but no limits', () => {
    const got = share({ ...lives(COUNTED), cluster: COUNTED.map(() => 'v') });
    expect(got.value).not.toBeNull();
    expect(got).toMatchObject({ lower: null, upper: null, clusters: 1, fewestClusters: 1 });
    expect(got.reason).toMatch(/one cluster/);
    // The scores of the exposed add up to nothing: from one vehicle the limits would be as narrow as nothing.
    const byVehicle = share({ ...lives(COUNTED), cluster: COUNTED.map(({ x }, row) => (x === 1 ? -1 : row)) });
    expect(byVehicle).toMatchObject({ lower: null, upper: null, clusters: 6, fewestClusters: 1 });
    const two = share({ ...lives(COUNTED), cluster: COUNTED.map(({ x }, row) => (x === 1 ? -(row % 2) - 1 : row)) });
    expect(two.lower).toBeLessThan(two.value as number);
    expect(two.warnings).toEqual([expect.objectContaining({ kind: 'few-clusters' })]);
  });
  it('a wrong call is refused', () => {
    const data = lives(COUNTED);
    expect(() => share(data, { exposure: 'y' })).toThrow(/exposure/);
    expect(() => share(data, { horizon: 0 })).toThrow(/horizon/);
    expect(() => share(data, { cut: 10 })).toThrow(/cut/);
    expect(() => share(data, { draws: 10 })).toThrow(/draws/);
    expect(() => share(data, { levels: ['0'] })).toThrow(/levels/);
    expect(() => share({ ...data, covariates: { x: data.exit } })).toThrow(/covariates.x.*not 0 or 1/);
  });
});

describe('excessShare laws', () => {
  const fleet = drawExcessFleet({ ...EXCESS_PLAN, vehicles: 150 }, createRandom(8));
  const options = { exposure: 'exposed', horizon: 100, cut: 25, ties: 'efron' } as const;
  const whole = share(fleet, options);

  it('the same seed gives the same limits', () => {
    expect(share(fleet, options)).toEqual(whole);
    expect(share(fleet, { ...options, random: createRandom(2) }).lower).not.toBe(whole.lower);
  });

  it('the unit of time changes nothing', () => {
    for (const unit of [1e-3, 1.609344, 1e6]) {
      const scaled = { exit: fleet.exit.map((time) => time * unit), entry: fleet.entry.map((time) => time * unit) };
      const got = share({ ...fleet, ...scaled }, { ...options, horizon: 100 * unit, cut: 25 * unit });
      expect(got.value).toBeCloseTo(whole.value as number, 9);
      expect(got.upper).toBeCloseTo(whole.upper as number, 9);
    }
  });

  it('the unit of a covariate changes nothing', () => {
    const heavy = fleet.covariates.heavy.map((value) => 2_000 + value / 1e3);
    const got = share({ ...fleet, covariates: { ...fleet.covariates, heavy } }, options);
    expect(got.value).toBeCloseTo(whole.value as number, 7);
    expect(got.lower).toBeCloseTo(whole.lower as number, 6);
  });

  it('the order of rows changes no value', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), (seed) => {
        const random = createRandom(seed);
        const keys = fleet.exit.map(() => random.uniform());
        const order = Uint32Array.from(fleet.exit.keys()).sort((a, b) => (keys[a] as number) - (keys[b] as number));
        const take = (column: ArrayLike<number>) => Array.from(order, (row) => column[row] as number);
        const data = {
          ...{
            exit: take(fleet.exit),
            event: take(fleet.event),
            entry: take(fleet.entry),
            cluster: take(fleet.cluster),
          },
          strata: { levels: fleet.strata.levels, codes: take(fleet.strata.codes) },
          covariates: { exposed: take(fleet.covariates.exposed), heavy: take(fleet.covariates.heavy) },
        };
        expect(share(data, options).value).toBeCloseTo(whole.value as number, 10);
      }),
      { numRuns: 5 },
    );
  });

  it('every life written twice within its vehicle, or weighing two, says no more than once', () => {
    const once = share(fleet, { ...options, ties: 'breslow' });
    const twice = (column: ArrayLike<number>) =>
      Array.from({ length: 2 * column.length }, (_, k) => column[k >> 1] as number);
    const doubled = {
      ...{
        exit: twice(fleet.exit),
        event: twice(fleet.event),
        entry: twice(fleet.entry),
        cluster: twice(fleet.cluster),
      },
      strata: { levels: fleet.strata.levels, codes: twice(fleet.strata.codes) },
      covariates: { exposed: twice(fleet.covariates.exposed), heavy: twice(fleet.covariates.heavy) },
    };
    const weighed = { ...fleet, weight: fleet.exit.map(() => 2) };
    for (const data of [doubled, weighed]) {
      const got = share(data, { ...options, ties: 'breslow' });
      expect(got.value).toBeCloseTo(once.value as number, 9);
      expect(got.lower).toBeCloseTo(once.lower as number, 9);
      expect(got.upper).toBeCloseTo(once.upper as number, 9);
    }
    // Without the vehicles the copies pass for news: limits narrower by about the root of two.
    const { cluster: _, ...strangers } = doubled;
    const narrow = share(strangers, { ...options, ties: 'breslow' });
    const width = ({ lower, upper }: { lower: number | null; upper: number | null }) => (upper ?? NaN) - (lower ?? NaN);
    expect(width(narrow)).toBeLessThan(0.85 * width(once));
  });

  it('progress is told after every draw, and may end the work', () => {
    const seen: number[] = [];
    share(lives(COUNTED), { onDraw: (done, draws) => seen.push(done / draws) });
    expect(seen).toHaveLength(200);
    expect(seen.at(-1)).toBe(1);
    const stop = () => {
      throw new Error('no longer wanted');
    };
    expect(() => share(lives(COUNTED), { onDraw: stop })).toThrow(/no longer wanted/);
  });

  it('without censoring and confounding it is the share from counts', () => {
    const plan = { ...EXCESS_PLAN, vehicles: 6000, tau: 0, duty: 1, scale: [300, 300, 300], lateShare: 0 };
    const even = {
      ...plan,
      exposedShare: [
        [0.3, 0.3],
        [0.3, 0.3],
        [0.3, 0.3],
      ] as const,
      recordsEnd: [400, 400] as const,
    };
    const { strata: _, ...data } = drawExcessFleet(even, createRandom(4));
    let [all, without, unexposed] = [0, 0, 0];
    data.exit.forEach((time, row) => {
      const one = data.event[row] === 1 && time <= 100 ? 1 : 0;
      all += one;
      if (data.covariates.exposed[row] === 1) return;
      without += one;
      unexposed++;
    });
    const got = share(data, options);
    const counted = 1 - without / unexposed / (all / data.exit.length);
    // Both estimate the same; the model is the more precise, and they share most of their error.
    expect(Math.abs((got.value as number) - counted)).toBeLessThan(0.01);
    expect(got.failedWithExposure.value).toBeCloseTo(all / data.exit.length, 3);
    const { excessShare: truth } = trueFailed(even, 100);
    expect(got.lower).toBeLessThan(truth);
    expect(got.upper).toBeGreaterThan(truth);
  });
});
