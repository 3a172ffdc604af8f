import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cumulativeIncidence,
  grayTest,
  kaplanMeier,
  logRank,
  nelsonAalen,
  quantile,
  restrictedMean,
  type SurvivalData,
} from '../../lib/statistics/index.ts';

interface Life {
  readonly entry: number;
  readonly span: number;
  readonly event: 0 | 1 | 2;
  readonly weight: number;
  readonly group: number;
  readonly cluster: number;
}

/** Short whole times make ties, late entrants and risk sets that run empty common. */
const lives = fc.array(
  fc.record<Life>({
    entry: fc.oneof(fc.constant(0), fc.nat(12)),
    span: fc.integer({ min: 1, max: 15 }),
    event: fc.constantFrom<0 | 1 | 2>(0, 1, 2),
    weight: fc.integer({ min: 1, max: 4 }),
    group: fc.nat(2),
    cluster: fc.nat(6),
  }),
  { minLength: 1, maxLength: 40 },
);

interface Columns extends SurvivalData {
  readonly entry: number[];
  readonly exit: number[];
  readonly event: number[];
  readonly weight: number[];
  readonly group: { levels: string[]; codes: number[] };
  readonly cluster: number[];
}

const GROUPS = ['a', 'b', 'c'];

/** Columns of the lives; causes 1 and 2 count as one event unless `causes`. */
const columns = (list: readonly Life[], causes = false): Columns => ({
  entry: list.map(({ entry }) => entry),
  exit: list.map(({ entry, span }) => entry + span),
  event: list.map(({ event }) => (causes ? event : Math.min(1, event))),
  weight: list.map(({ weight }) => weight),
  group: { levels: GROUPS, codes: list.map(({ group }) => group) },
  cluster: list.map(({ cluster }) => cluster),
});

const unweighted = (data: Columns): Omit<Columns, 'weight'> => {
  const { weight: _, ...rest } = data;
  return rest;
};

/** Every function, boiled down to comparable numbers: curves at `times` only. */
function everything(data: SurvivalData, causes: SurvivalData, times: readonly number[], scale = 1): number[] {
  const at = (curveTimes: Float64Array, values: Float64Array | undefined, before: number): number[] =>
    times.map((time) => {
      let place = -1;
      while (place + 1 < curveTimes.length && (curveTimes[place + 1] as number) <= time * scale) place++;
      return place < 0 || !values ? before : (values[place] as number);
    });
  const survival = kaplanMeier(data).flatMap((curve) => [
    ...at(curve.time, curve.survival, 1),
    ...at(curve.time, curve.standardError, 0),
    ...at(curve.time, curve.robustStandardError, 0),
    quantile(curve, 0.3).value === null ? -1 : (quantile(curve, 0.3).value as number) / scale,
    (restrictedMean(curve, 6 * scale, { beyond: 'hold' }).value ?? 0) / scale,
    (restrictedMean(curve, 6 * scale, { beyond: 'hold' }).robustStandardError ?? 0) / scale,
  ]);
  const hazard = nelsonAalen(data).flatMap((curve) => [
    ...at(curve.time, curve.cumulativeHazard, 0),
    ...at(curve.time, curve.robustStandardError, 0),
  ]);
  const incidence = cumulativeIncidence(causes).flatMap((curve) => [
    ...at(curve.time, curve.incidence, 0),
    ...at(curve.time, curve.standardError, 0),
    ...at(curve.time, curve.robustStandardError, 0),
  ]);
  const rank = logRank(data, { weights: 'peto-peto' });
  const tests = [rank.statistic, rank.robust?.statistic ?? null, grayTest(causes).statistic];
  return [...survival, ...hazard, ...incidence, ...tests.map((statistic) => statistic ?? -1)];
}

const TIMES = [1, 2, 3, 5, 8, 13, 20, 27];

const expectClose = (got: readonly number[], want: readonly number[]): void => {
  expect(got.length).toBe(want.length);
  got.forEach((value, k) => {
    const miss = Math.abs(value - (want[k] as number));
    // Errors that are truly 0 come out of sums of squares as roots of rounding.
    if (!(miss <= 1e-8 * Math.max(1, Math.abs(want[k] as number)) || miss < 3e-7))
      expect.fail(`[${k}] ${value} is not ${want[k]}`);
  });
};

describe('laws of the survival functions', () => {
  it('the order of rows does not matter', () => {
    fc.assert(
      fc.property(
        lives.chain((list) => fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length }))),
        ([list, shuffled]) => {
          expectClose(
            everything(columns(shuffled), columns(shuffled, true), TIMES),
            everything(columns(list), columns(list, true), TIMES),
          );
        },
      ),
    );
  });

  it('nor does the unit of time, however large or small', () => {
    fc.assert(
      fc.property(lives, fc.constantFrom(2 ** -200, 2 ** -20, 2 ** 30, 2 ** 200), (list, unit) => {
        const scaled = (data: Columns): Columns => ({
          ...data,
          entry: data.entry.map((time) => time * unit),
          exit: data.exit.map((time) => time * unit),
        });
        const [data, causes] = [columns(list), columns(list, true)];
        expectClose(everything(scaled(data), scaled(causes), TIMES, unit), everything(data, causes, TIMES));
      }),
    );
  });

  it('a life may be cut in two at any age, the second part entering late', () => {
    fc.assert(
      fc.property(lives, fc.infiniteStream(fc.integer({ min: 1, max: 15 })), (list, cuts) => {
        const cut = list.flatMap((life) => {
          // Sixteenths add without rounding, so no exit moves by its last bit and out of a tie.
          const span = (life.span * cuts.next().value) / 16;
          const first: Life = { ...life, span, event: 0 };
          return [first, { ...life, entry: life.entry + span, span: life.span - span }];
        });
        const [whole, parts] = [columns(list), columns(cut)];
        expectClose(everything(parts, columns(cut, true), TIMES), everything(whole, columns(list, true), TIMES));
      }),
    );
  });

  it('whole weights are repeats', () => {
    fc.assert(
      fc.property(lives, (list) => {
        const repeated = list.flatMap((life) => Array.from({ length: life.weight }, () => life));
        expectClose(
          everything(columns(list), columns(list, true), TIMES),
          everything(unweighted(columns(repeated)), unweighted(columns(repeated, true)), TIMES),
        );
      }),
    );
  });

  it('without censoring or late entry the curve is the empirical distribution, its error binomial', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 30 }), (exit) => {
        const n = exit.length;
        const [curve] = kaplanMeier({ exit, event: exit.map(() => 1) });
        curve!.time.forEach((time, place) => {
          const alive = exit.filter((life) => life > time).length / n;
          expect(curve!.survival[place]).toBeCloseTo(alive, 12);
          expect(curve!.standardError[place]).toBeCloseTo(Math.sqrt((alive * (1 - alive)) / n), 12);
        });
        const horizon = 12;
        const mean = exit.reduce((sum, life) => sum + Math.min(life, horizon), 0) / n;
        expect(restrictedMean(curve!, horizon).value).toBeCloseTo(mean, 11);
      }),
    );
  });

  it('the incidences of all causes and survival make one', () => {
    fc.assert(
      fc.property(lives, (list) => {
        const data = columns(list, true);
        const curves = cumulativeIncidence(data);
        for (const { group, survival } of kaplanMeier(columns(list))) {
          const causes = curves.filter((curve) => curve.group === group);
          survival.forEach((s, place) => {
            if (causes.length === 0) return;
            const failed = causes.reduce((sum, { incidence }) => sum + (incidence[place] as number), 0);
            expect(failed + s).toBeCloseTo(1, 12);
            expect(causes[0]!.survival[place]).toBeCloseTo(s, 12);
          });
        }
      }),
    );
  });

  it('numbers at risk balance: entered less events and censorings before', () => {
    fc.assert(
      fc.property(lives, (list) => {
        for (const { atRisk, entered, events, censored } of kaplanMeier(columns(list))) {
          let running = 0;
          atRisk.forEach((n, place) => {
            running += entered[place] as number;
            expect(n).toBe(running);
            running -= (events[place] as number) + (censored[place] as number);
          });
          expect(running).toBe(0);
        }
      }),
    );
  });

  it('limits hold the curve between them and nothing is NaN', () => {
    fc.assert(
      fc.property(
        lives,
        fc.constantFrom('log-log', 'log', 'plain'),
        fc.double({ min: 0.5, max: 0.999, noNaN: true }),
        (list, interval, level) => {
          const options = { interval, level } as const;
          for (const curve of kaplanMeier(columns(list), options)) {
            const limits: [Float64Array | undefined, Float64Array | undefined][] = [
              [curve.lower, curve.upper],
              [curve.robustLower, curve.robustUpper],
            ];
            for (const [lower, upper] of limits)
              curve.survival.forEach((s, place) => {
                if (!lower || !upper) return;
                expect(
                  lower[place]! >= 0 && lower[place]! <= s + 1e-12 && upper[place]! >= s - 1e-12 && upper[place]! <= 1,
                ).toBe(true);
              });
          }
          for (const curve of cumulativeIncidence(columns(list, true), options))
            curve.incidence.forEach((f, place) => {
              expect(
                curve.lower[place]! >= 0 &&
                  curve.lower[place]! <= f + 1e-12 &&
                  curve.upper[place]! >= f - 1e-12 &&
                  curve.upper[place]! <= 1 + 1e-12,
              ).toBe(true);
            });
        },
      ),
    );
  });
});

describe('robust errors against derivatives in the weights, cluster by cluster', () => {
  const step = 1e-5;
  /** √Σ over clusters of (∂value/∂log weight of the cluster)². */
  const bruteForce = (data: Columns, value: (data: Columns) => number[]): number[] => {
    const clusters = [...new Set(data.cluster)];
    const moved = (cluster: number, by: number): Columns => ({
      ...data,
      weight: data.weight.map((w, row) => (data.cluster[row] === cluster ? w * (1 + by) : w)),
    });
    const pulls = clusters.map((cluster) => {
      const [up, down] = [value(moved(cluster, step)), value(moved(cluster, -step))];
      return up.map((high, k) => (high - (down[k] as number)) / (2 * step));
    });
    return pulls[0]!.map((_, k) => Math.sqrt(pulls.reduce((sum, pull) => sum + (pull[k] as number) ** 2, 0)));
  };
  const compare = (got: readonly number[], want: readonly number[]): void =>
    got.forEach((error, k) => expect(Math.abs(error - (want[k] as number))).toBeLessThan(2e-6 * (1 + error)));

  it('of survival, hazard and incidence, with late entry, ties and weights', () => {
    fc.assert(
      fc.property(lives, (list) => {
        const clustered = new Set(list.map(({ cluster, group }) => `${cluster} ${group}`));
        fc.pre(GROUPS.every((_, group) => [...clustered].filter((key) => key.endsWith(` ${group}`)).length !== 1));
        const data = columns(list);
        const causes = columns(list, true);
        compare(
          kaplanMeier(data).flatMap((curve) => Array.from(curve.robustStandardError ?? [])),
          bruteForce(data, (moved) => kaplanMeier(moved).flatMap((curve) => Array.from(curve.survival))),
        );
        compare(
          nelsonAalen(data).flatMap((curve) => Array.from(curve.robustStandardError ?? [])),
          bruteForce(data, (moved) => nelsonAalen(moved).flatMap((curve) => Array.from(curve.cumulativeHazard))),
        );
        compare(
          cumulativeIncidence(causes).flatMap((curve) => Array.from(curve.robustStandardError ?? [])),
          bruteForce(causes, (moved) => cumulativeIncidence(moved).flatMap((curve) => Array.from(curve.incidence))),
        );
      }),
      { numRuns: 60 },
    );
  });
});
