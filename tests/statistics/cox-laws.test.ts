import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coxRegression, createRandom, type CoxOptions, type SurvivalData } from '../../lib/statistics/index.ts';

type Columns = SurvivalData & {
  readonly entry: number[];
  readonly exit: number[];
  readonly event: number[];
  readonly weight: number[];
  readonly strata: number[];
  readonly cluster: number[];
  readonly covariates: { readonly wet: number[]; readonly load: number[] };
};

/** Lives in whole months, so that ties, late entrants and censorings tied with failures are common. */
function fleet(seed: number, rows: number): Columns {
  const random = createRandom(seed);
  const lives = Array.from({ length: rows }, (_, row) => {
    const [wet, load] = [random.uniform() < 0.4 ? 1 : 0, Math.round(20 * random.normal()) / 10];
    const life = Math.ceil(8 * random.exponential() * Math.exp(-0.5 * wet - 0.3 * load));
    const [end, entry] = [Math.ceil(20 * random.uniform()), random.uniform() < 0.3 ? random.below(6) : 0];
    const exit = Math.min(life, end, 60);
    return { wet, load, entry, exit, event: life <= end ? 1 : 0, weight: 1 + (row % 3), row };
  }).filter(({ entry, exit }) => exit > entry);
  const column = (of: (life: (typeof lives)[number]) => number) => lives.map(of);
  return {
    entry: column(({ entry }) => entry),
    exit: column(({ exit }) => exit),
    event: column(({ event }) => event),
    weight: column(({ weight }) => weight),
    strata: column(({ row }) => row % 2),
    cluster: column(({ row }) => Math.floor(row / 3)),
    covariates: { wet: column(({ wet }) => wet), load: column(({ load }) => load) },
  };
}

const rowsOf = (data: Columns, rows: readonly number[]): Columns => {
  const pick = (values: readonly number[]) => rows.map((row) => values[row] as number);
  const { entry, exit, event, weight, strata, cluster, covariates } = data;
  return {
    entry: pick(entry),
    exit: pick(exit),
    event: pick(event),
    weight: pick(weight),
    strata: pick(strata),
    cluster: pick(cluster),
    covariates: { wet: pick(covariates.wet), load: pick(covariates.load) },
  };
};

/** Everything a fit says, as comparable numbers. */
function numbersOf(data: SurvivalData, options: CoxOptions = {}): number[] {
  const fit = coxRegression(data, { robustScore: true, ...options });
  const { tests, concordance } = fit;
  return [
    ...fit.coefficients,
    ...fit.covariance,
    ...(fit.robustCovariance ?? []),
    ...[fit.logLikelihood, fit.nullLogLikelihood, tests.likelihoodRatio.statistic, tests.wald.statistic],
    ...[tests.score?.statistic ?? 0, tests.robustWald?.statistic ?? 0, tests.robustScore?.statistic ?? 0],
    ...[concordance?.value ?? 0, concordance?.standardError ?? 0],
  ];
}

const expectClose = (got: readonly number[], want: readonly number[], tolerance = 1e-8): void => {
  expect(got.length).toBe(want.length);
  got.forEach((value, k) => {
    const miss = Math.abs(value - (want[k] as number));
    if (!(miss <= tolerance * Math.max(1, Math.abs(want[k] as number))))
      expect.fail(`[${k}] ${value} is not ${want[k]}`);
  });
};

const seeds = fc.integer({ min: 1, max: 1e6 });
const ties = fc.constantFrom<'efron' | 'breslow'>('efron', 'breslow');
const runs = { numRuns: 25 };

describe('coxRegression laws', () => {
  it('the order of rows and the names of clusters do not matter', () => {
    fc.assert(
      fc.property(seeds, ties, (seed, method) => {
        const data = fleet(seed, 80);
        const turned = rowsOf(
          data,
          [...data.exit.keys()].sort((a, b) => ((a * 37) % 101) - ((b * 37) % 101)),
        );
        const renamed = { ...turned, cluster: turned.cluster.map((code) => `vehicle ${1000 - code}`) };
        expectClose(numbersOf(renamed, { ties: method }), numbersOf(data, { ties: method }));
      }),
      runs,
    );
  });

  it('only the order of times matters, not their unit or scale', () => {
    fc.assert(
      fc.property(seeds, ties, fc.constantFrom(1e-9, 1e9), (seed, method, unit) => {
        const data = fleet(seed, 80);
        const bent = (time: number) => unit * time ** 3;
        const moved = { ...data, entry: data.entry.map(bent), exit: data.exit.map(bent) };
        expectClose(numbersOf(moved, { ties: method }), numbersOf(data, { ties: method }));
      }),
      runs,
    );
  });

  it('a life may be cut in two at any age, the second part entering late', () => {
    fc.assert(
      fc.property(seeds, ties, (seed, method) => {
        const data = fleet(seed, 60);
        const rows = [...data.exit.keys()];
        const cuts = rows.map(
          (row) => (data.entry[row] as number) + ((data.exit[row] as number) - (data.entry[row] as number)) / 2,
        );
        const [before, after] = [rowsOf(data, rows), rowsOf(data, rows)];
        const join = (one: number[], other: number[]) => [...one, ...other];
        const cut: Columns = {
          ...rowsOf(data, [...rows, ...rows]),
          entry: join(before.entry, cuts),
          exit: join(cuts, after.exit),
          event: join(
            rows.map(() => 0),
            after.event,
          ),
        };
        const options = { ties: method, concordance: false };
        expectClose(numbersOf(cut, options), numbersOf(data, options));
      }),
      runs,
    );
  });

  it('whole weights are repeats under Breslow’s ties, robust errors and all', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const data = fleet(seed, 60);
        const repeats = [...data.exit.keys()].flatMap((row) =>
          Array.from({ length: data.weight[row] as number }, () => row),
        );
        const { weight: _, ...repeated } = rowsOf(data, repeats);
        expectClose(numbersOf(data, { ties: 'breslow' }), numbersOf(repeated, { ties: 'breslow' }));
      }),
      runs,
    );
  });

  it('covariates in another unit and from another zero have their coefficients and errors rescaled', () => {
    fc.assert(
      fc.property(seeds, ties, fc.constantFrom(1e-6, 25.4, 1e6), (seed, method, unit) => {
        const data = fleet(seed, 80);
        const load = data.covariates.load.map((x) => (x + 50) * unit);
        const [one, other] = [data, { ...data, covariates: { ...data.covariates, load } }].map((columns) =>
          coxRegression(columns, { ties: method }),
        );
        expectClose(
          [...other!.coefficients].map((b, j) => b * (j === 1 ? unit : 1)),
          [...one!.coefficients],
        );
        for (const name of ['standardErrors', 'robustStandardErrors'] as const)
          expectClose(
            [...(other![name] as Float64Array)].map((b, j) => b * (j === 1 ? unit : 1)),
            [...(one![name] as Float64Array)],
          );
        expectClose([other!.logLikelihood], [one!.logLikelihood]);
      }),
      runs,
    );
  });

  it('the likelihood is that of its definition, and flat at the top', () => {
    fc.assert(
      fc.property(seeds, ties, (seed, method) => {
        const data = fleet(seed, 60);
        const offset = data.exit.map((_, row) => ((row % 5) - 2) / 4);
        const fit = coxRegression(data, { ties: method, offset });
        const at = (beta: readonly number[]) => written(data, offset, beta, method);
        const beta = [...fit.coefficients];
        expectClose([fit.logLikelihood, fit.nullLogLikelihood], [at(beta), at([0, 0])], 1e-11);
        const step = 1e-4;
        beta.forEach((_, j) => {
          const moved = (by: number) => at(beta.map((b, k) => (k === j ? b + by : b)));
          expect(Math.abs((moved(step) - moved(-step)) / (2 * step))).toBeLessThan(1e-5);
          const curvature = (moved(step) - 2 * moved(0) + moved(-step)) / step ** 2;
          const [a, b, , d] = fit.covariance as unknown as [number, number, number, number];
          // The diagonal of the inverse of [[a, b], [b, d]].
          const information = (j === 0 ? d : a) / (a * d - b * b);
          expect(Math.abs(-curvature / information - 1)).toBeLessThan(1e-4);
        });
      }),
      runs,
    );
  });

  it('the robust covariance is that of the derivatives in the weights, cluster by cluster (Breslow)', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const data = fleet(seed, 45);
        const fit = coxRegression(data, { ties: 'breslow' });
        const step = 1e-4;
        const moved = (cluster: number, by: number) =>
          coxRegression(
            { ...data, weight: data.weight.map((w, row) => (data.cluster[row] === cluster ? w * (1 + by) : w)) },
            { ties: 'breslow', concordance: false },
          ).coefficients;
        const sums = new Float64Array(4);
        for (const cluster of new Set(data.cluster)) {
          const [up, down] = [moved(cluster, step), moved(cluster, -step)];
          const pull = up.map((value, j) => (value - (down[j] as number)) / (2 * step));
          sums.forEach((sum, k) => (sums[k] = sum + (pull[k >> 1] as number) * (pull[k & 1] as number)));
        }
        expectClose([...(fit.robustCovariance as Float64Array)], [...sums], 1e-6);
      }),
      { numRuns: 10 },
    );
  });

  it('Firth’s penalised likelihood is that of its definition, flat at the top, whatever the units', () => {
    fc.assert(
      fc.property(seeds, ties, (seed, method) => {
        const data = fleet(seed, 40);
        const none = data.exit.map(() => 0);
        const fit = coxRegression(data, { ties: method, firth: true, limits: 'wald' });
        expect(fit.converged).toBe(true);
        const step = 1e-3;
        const move = (beta: readonly number[], j: number, by: number) => beta.map((b, k) => (k === j ? b + by : b));
        const second = (beta: readonly number[], j: number, k: number) => {
          const at = (a: number, b: number) => written(data, none, move(move(beta, j, a), k, b), method);
          return (at(step, step) - at(step, -step) - at(-step, step) + at(-step, -step)) / (4 * step ** 2);
        };
        const penalised = (beta: readonly number[]) => {
          const [a, b, d] = [second(beta, 0, 0), second(beta, 0, 1), second(beta, 1, 1)];
          return written(data, none, beta, method) + Math.log(a * d - b * b) / 2;
        };
        const top = [...fit.coefficients];
        expectClose([fit.logLikelihood], [penalised(top)], 1e-5);
        for (const j of [0, 1])
          expect(Math.abs(penalised(move(top, j, 0.01)) - penalised(move(top, j, -0.01)))).toBeLessThan(2e-4);
        const load = data.covariates.load.map((x) => 1e6 * x);
        const other = coxRegression(
          { ...data, covariates: { ...data.covariates, load } },
          { ties: method, firth: true, limits: 'wald' },
        );
        expectClose([other.coefficients[0] as number, 1e6 * (other.coefficients[1] as number)], top, 1e-7);
      }),
      { numRuns: 10 },
    );
  });

  it('concordance is that of counting pairs', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const data = fleet(seed, 60);
        const { concordance, coefficients } = coxRegression(data);
        const score = data.exit.map(
          (_, row) => data.covariates.wet[row]! * coefficients[0]! + data.covariates.load[row]! * coefficients[1]!,
        );
        const counts = [0, 0, 0];
        for (const a of score.keys())
          for (const b of score.keys()) {
            if (data.event[a] !== 1 || data.strata[a] !== data.strata[b] || !(data.entry[b]! < data.exit[a]!)) continue;
            if (!(data.exit[b]! > data.exit[a]! || (data.exit[b] === data.exit[a] && data.event[b] === 0))) continue;
            const gap = score[a]! - score[b]!;
            counts[Math.abs(gap) < 1e-12 ? 2 : gap > 0 ? 0 : 1]! += data.weight[a]! * data.weight[b]!;
          }
        expect([concordance?.concordant, concordance?.discordant, concordance?.tiedRisk]).toEqual(
          counts.map((count) => expect.closeTo(count, 6)),
        );
      }),
      runs,
    );
  });

  it('folded and unfolded covariates give the same fit (2,000 lives)', () => {
    const data = fleet(11, 2000);
    // One distinct value more on a life censored before the first failure changes nothing but the layout.
    const apart = { ...data.covariates, load: data.covariates.load.map((x, row) => x + row * 1e-13) };
    expectClose(
      numbersOf({ ...data, covariates: apart }, { concordance: false }),
      numbersOf(data, { concordance: false }),
      1e-7,
    );
  });
});

/** Log partial likelihood from its definition: risk sets counted anew at every failure time of every stratum. */
function written(
  data: Columns,
  offset: readonly number[],
  beta: readonly number[],
  method: 'efron' | 'breslow',
): number {
  const risk = data.exit.map((_, row) =>
    Math.exp(data.covariates.wet[row]! * beta[0]! + data.covariates.load[row]! * beta[1]! + offset[row]!),
  );
  const weighed = (rows: readonly number[]) => rows.reduce((sum, row) => sum + data.weight[row]! * risk[row]!, 0);
  const rows = [...data.exit.keys()];
  let sum = 0;
  for (const stratum of new Set(data.strata))
    for (const time of new Set(rows.filter((row) => data.event[row] === 1).map((row) => data.exit[row]!))) {
      const inside = rows.filter((row) => data.strata[row] === stratum);
      const failing = inside.filter((row) => data.exit[row] === time && data.event[row] === 1);
      const atRisk = inside.filter((row) => data.entry[row]! < time && data.exit[row]! >= time);
      const mean = failing.reduce((total, row) => total + data.weight[row]!, 0) / Math.max(1, failing.length);
      failing.forEach((row, k) => {
        const share = method === 'efron' ? k / failing.length : 0;
        sum += data.weight[row]! * Math.log(risk[row]!) - mean * Math.log(weighed(atRisk) - share * weighed(failing));
      });
    }
  return sum;
}
