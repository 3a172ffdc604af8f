import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLife } from '../../lib/statistics/fit-life.ts';
import { createRandom } from '../../lib/statistics/numeric/random.ts';
import { weibullRegression } from '../../lib/statistics/weibull-regression.ts';

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const close = (actual: number, expected: number, tolerance = 1e-9) =>
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));

interface Fleet {
  readonly exit: number[];
  readonly event: number[];
  readonly entry: number[];
  readonly cluster: number[];
  readonly wet: number[];
  readonly load: number[];
}

/** log T = log 100 − 0.5 wet + 0.3 load + 0.5 W, W smallest extreme value; running units and late entries among them. */
function fleet(seed: number, count: number): Fleet {
  const random = createRandom(seed);
  const data: Fleet = { exit: [], event: [], entry: [], cluster: [], wet: [], load: [] };
  while (data.exit.length < count) {
    const [wet, load] = [random.uniform() < 0.4 ? 1 : 0, random.normal()];
    const life = 100 * Math.exp(-0.5 * wet + 0.3 * load) * random.exponential() ** 0.5;
    const entry = random.uniform() < 0.3 ? 40 * random.uniform() : 0;
    if (life <= entry) continue;
    const end = entry + 200 * random.uniform();
    data.exit.push(Math.min(life, end));
    data.event.push(life <= end ? 1 : 0);
    data.entry.push(entry);
    data.cluster.push(Math.floor(data.wet.length / 3));
    data.wet.push(wet);
    data.load.push(load);
  }
  return data;
}

const lives = ({ exit, event, entry }: Fleet) => ({ exit, event, entry });

describe('weibullRegression by hand', () => {
  it('exponential, two groups: log of time at risk / failures of each, variance 1 / d₀ + 1 / d₁', () => {
    const exit = [2, 5, 6, 1, 2, 4, 8];
    const event = [1, 0, 1, 1, 1, 1, 0];
    const entry = [0, 1, 0, 0, 1, 0, 2];
    const group = [0, 0, 0, 1, 1, 1, 1];
    const fit = weibullRegression({ exit, event, entry, covariates: { group } }, { distribution: 'exponential' });
    const rate = (g: number) => {
      const rows = [...group.keys()].filter((row) => group[row] === g);
      const atRisk = sum(rows.map((row) => (exit[row] as number) - (entry[row] as number)));
      return sum(rows.map((row) => event[row] as number)) / atRisk;
    };
    close(fit.coefficients[0] as number, -Math.log(rate(0)));
    close(fit.coefficients[1] as number, Math.log(rate(0) / rate(1)));
    close(fit.standardErrors[0] as number, Math.sqrt(1 / 2));
    close(fit.standardErrors[1] as number, Math.sqrt(1 / 2 + 1 / 3));
    close(fit.hazardRatio?.[1] as number, rate(1) / rate(0));
    close(fit.tests.wald.statistic, Math.log(rate(0) / rate(1)) ** 2 / (1 / 2 + 1 / 3));
  });

  it('lognormal without censoring: least squares of log life, spread √(residual sum of squares / n)', () => {
    const x = [1, 2, 3, 4, 6];
    const y = [0.4, 1.1, 0.9, 2.2, 2.4];
    const fit = weibullRegression(
      { exit: y.map(Math.exp), event: [1, 1, 1, 1, 1], covariates: { x } },
      { distribution: 'lognormal' },
    );
    const [meanX, meanY] = [sum(x) / 5, sum(y) / 5];
    const xx = sum(x.map((value) => (value - meanX) ** 2));
    const slope = sum(x.map((value, row) => (value - meanX) * ((y[row] as number) - meanY))) / xx;
    const residuals = y.map((value, row) => value - meanY - slope * ((x[row] as number) - meanX));
    const spread = Math.sqrt(sum(residuals.map((value) => value ** 2)) / 5);
    close(fit.coefficients[1] as number, slope);
    close(fit.coefficients[0] as number, meanY - slope * meanX);
    close(fit.spread.value, spread);
    close(fit.standardErrors[1] as number, spread / Math.sqrt(xx));
    close(fit.standardErrors[0] as number, spread * Math.sqrt(1 / 5 + meanX ** 2 / xx));
    expect(fit.hazardRatio).toBeUndefined();
  });

  it('one inspection of each group, exponential: the lives that have the shares found failed', () => {
    const fit = weibullRegression(
      {
        lower: [0, 50, 0, 50],
        upper: [50, Infinity, 50, Infinity],
        weight: [3, 7, 6, 4],
        covariates: { group: [0, 0, 1, 1] },
      },
      { distribution: 'exponential' },
    );
    close(fit.ratio[0] as number, -50 / Math.log(0.7));
    close(fit.ratio[1] as number, Math.log(0.7) / Math.log(0.4));
  });

  it('a covariate that is balanced and without effect leaves the plain Weibull fit', () => {
    const [exit, event] = [
      [3, 5, 8, 12],
      [1, 1, 0, 1],
    ];
    const twice = (values: number[]) => [...values, ...values];
    const regression = weibullRegression({
      exit: twice(exit),
      event: twice(event),
      covariates: { x: [0, 0, 0, 0, 1, 1, 1, 1] },
    });
    const { parameters } = fitLife({ exit, event }, { distribution: 'weibull' });
    close(regression.coefficients[1] as number, 0);
    close(Math.exp(regression.coefficients[0] as number), parameters.scale.value);
    close(regression.shape?.value as number, parameters.shape.value);
    close(regression.tests.likelihoodRatio.statistic, 0);
    close(regression.tests.likelihoodRatio.pValue, 1, 1e-6);
  });
});

describe('weibullRegression says what it cannot do', () => {
  const data = fleet(4, 120);

  it('leaves out columns that say nothing of their own, and names them', () => {
    const covariates = {
      wet: data.wet,
      always: data.wet.map(() => 7),
      dry: data.wet.map((x) => 1 - x),
      load: data.load,
    };
    const fit = weibullRegression({ ...lives(data), covariates });
    const alone = weibullRegression({ ...lives(data), covariates: { wet: data.wet, load: data.load } });
    expect(fit.terms).toEqual(['(intercept)', 'wet', 'load']);
    expect(fit.warnings.map(({ kind, term }) => [kind, term])).toEqual([
      ['constant', 'always'],
      ['collinear', 'dry'],
    ]);
    fit.coefficients.forEach((value, j) => close(value, alone.coefficients[j] as number));
  });

  it('a level without failures has an infinite life ratio; the rest is as if its lives were not there', () => {
    const event = data.event.map((flag, row) => (data.wet[row] ? 0 : flag));
    const fit = weibullRegression({ ...lives(data), event, covariates: { load: data.load, wet: data.wet } });
    expect(fit.converged).toBe(true);
    expect(fit.warnings).toMatchObject([{ kind: 'separation', term: 'wet' }]);
    expect(fit.ratio[2]).toBe(Infinity);
    expect(fit.hazardRatio?.[2]).toBe(0);
    expect(fit.upper[2]).toBe(Infinity);
    const dry = [...data.wet.keys()].filter((row) => data.wet[row] === 0);
    const pick = (values: number[]) => dry.map((row) => values[row] as number);
    const rest = weibullRegression({
      exit: pick(data.exit),
      event: pick(data.event),
      entry: pick(data.entry),
      covariates: { load: pick(data.load) },
    });
    for (const j of [0, 1]) {
      close(fit.coefficients[j] as number, rest.coefficients[j] as number, 1e-7);
      close(fit.standardErrors[j] as number, rest.standardErrors[j] as number, 1e-6);
    }
    close(fit.shape?.standardError as number, rest.shape?.standardError as number, 1e-6);
  });

  it('a reference level without failures sends the intercept and all other levels to infinity', () => {
    const position = data.wet.map((_, row) => row % 3);
    const event = data.event.map((flag, row) => (position[row] === 0 ? 0 : flag));
    const covariates = { position: { levels: ['steer', 'drive', 'trailer'], codes: position }, load: data.load };
    const fit = weibullRegression({ ...lives(data), event, covariates });
    expect([...fit.coefficients.slice(0, 3)]).toEqual([Infinity, -Infinity, -Infinity]);
    expect(Number.isFinite(fit.coefficients[3])).toBe(true);
    expect(fit.coefficients.some(Number.isNaN)).toBe(false);
    expect([...fit.lower, ...fit.upper, ...fit.standardErrors].some(Number.isNaN)).toBe(false);
  });

  it('covariates that fit every failure exactly leave no spread: no maximum, no limits, no false separation', () => {
    const fit = weibullRegression({ exit: [2, 9, 2.5], event: [1, 1, 0], covariates: { load: [1, 3, 1.5] } });
    expect(fit.converged).toBe(false);
    expect(fit.warnings).toMatchObject([{ kind: 'not-converged', term: null }]);
    expect(fit.warnings[0]?.message).toMatch(/without any spread left/);
    expect([...fit.lower]).toEqual([0, 0]);
    expect([...fit.upper]).toEqual([Infinity, Infinity]);
  });

  it('warns of few clusters, throws on bad columns', () => {
    const covariates = { wet: data.wet };
    const fit = weibullRegression({ ...lives(data), cluster: data.cluster.map((c) => c % 7), covariates });
    expect(fit.warnings).toMatchObject([{ kind: 'few-clusters' }]);
    expect(() => weibullRegression({ ...lives(data), covariates: {} })).toThrow('covariates: are none');
    expect(() => weibullRegression({ ...lives(data), covariates: { wet: [1] } })).toThrow('covariates.wet');
    const event = data.event.map(() => 0);
    expect(() => weibullRegression({ ...lives(data), event, covariates })).toThrow('no failures');
  });
});

describe('weibullRegression laws', () => {
  const seeds = fc.integer({ min: 1, max: 1e6 });
  const distributions = fc.constantFrom('weibull', 'lognormal', 'exponential' as const);
  const runs = { numRuns: 15 };

  it('a covariate in another unit, from another zero, has its coefficient and error rescaled', () => {
    fc.assert(
      fc.property(seeds, distributions, fc.constantFrom(1e-6, 25.4, 1e6), (seed, distribution, unit) => {
        const data = fleet(seed, 80);
        const fit = (load: number[]) =>
          weibullRegression({ ...lives(data), covariates: { wet: data.wet, load } }, { distribution });
        const [one, other] = [fit(data.load), fit(data.load.map((x) => x * unit + 32 * unit))];
        close((other.coefficients[2] as number) * unit, one.coefficients[2] as number, 1e-7);
        close((other.standardErrors[2] as number) * unit, one.standardErrors[2] as number, 1e-7);
        close(other.coefficients[1] as number, one.coefficients[1] as number, 1e-7);
        close(other.logLikelihood, one.logLikelihood, 1e-9);
        close(
          other.coefficients[0] as number,
          (one.coefficients[0] as number) - 32 * (one.coefficients[2] as number),
          1e-6,
        );
      }),
      runs,
    );
  });

  it('another unit of time moves the intercept by its log and nothing else', () => {
    fc.assert(
      fc.property(seeds, fc.constantFrom(1e-6, 1.609344, 1e6), (seed, unit) => {
        const data = fleet(seed, 80);
        const covariates = { wet: data.wet, load: data.load };
        const one = weibullRegression({ ...lives(data), covariates });
        const exit = data.exit.map((t) => t * unit);
        const other = weibullRegression({
          exit,
          event: data.event,
          entry: data.entry.map((t) => t * unit),
          covariates,
        });
        close(other.coefficients[0] as number, (one.coefficients[0] as number) + Math.log(unit), 1e-8);
        other.covariance.forEach((value, k) => close(value, one.covariance[k] as number, 1e-8));
      }),
      runs,
    );
  });

  it('weights act as repeats; a life cut in two is the same life; a category is its indicator columns', () => {
    fc.assert(
      fc.property(seeds, distributions, (seed, distribution) => {
        const data = fleet(seed, 60);
        const weight = data.exit.map((_, row) => 1 + (row % 3));
        const cut = data.exit.map((end, row) => ((data.entry[row] as number) + end) / 2);
        const both = [...data.exit.keys()].flatMap((row) => Array<number>(weight[row] as number).fill(row));
        const codes = data.wet.map((x, row) => x + (row % 2));
        const category = { levels: ['a', 'b', 'c'], codes };
        const options = { distribution };
        const one = weibullRegression({ ...lives(data), weight, covariates: { category, load: data.load } }, options);
        const repeated = (values: number[]) => both.map((row) => values[row] as number);
        const other = weibullRegression(
          {
            exit: [...repeated(cut), ...repeated(data.exit)],
            event: [...both.map(() => 0), ...repeated(data.event)],
            entry: [...repeated(data.entry), ...repeated(cut)],
            covariates: {
              b: [...repeated(codes), ...repeated(codes)].map((code) => (code === 1 ? 1 : 0)),
              c: [...repeated(codes), ...repeated(codes)].map((code) => (code === 2 ? 1 : 0)),
              load: [...repeated(data.load), ...repeated(data.load)],
            },
          },
          options,
        );
        expect(one.terms).toEqual(['(intercept)', 'category=b', 'category=c', 'load']);
        other.coefficients.forEach((value, j) => close(value, one.coefficients[j] as number, 1e-7));
        other.covariance.forEach((value, k) => close(value, one.covariance[k] as number, 1e-6));
      }),
      runs,
    );
  });

  it('at the top the gradient, by differences of a likelihood written out on its own, is zero', () => {
    const data = fleet(9, 200);
    const fit = weibullRegression({ ...lives(data), covariates: { wet: data.wet, load: data.load } });
    // The log-likelihood from its definition, on its own: Σ event (log h) − (H(exit) − H(entry)).
    const value = (b: number[], logSpread: number) => {
      const spread = Math.exp(logSpread);
      const hazard = (t: number, row: number) => {
        const at =
          (b[0] as number) +
          (b[1] as number) * (data.wet[row] as number) +
          (b[2] as number) * (data.load[row] as number);
        return t === 0 ? 0 : Math.exp((Math.log(t) - at) / spread);
      };
      return sum(
        data.exit.map((t, row) => {
          const cumulative = hazard(t, row);
          return (
            (data.event[row] as number) * Math.log(cumulative / (spread * t)) -
            cumulative +
            hazard(data.entry[row] as number, row)
          );
        }),
      );
    };
    const [b, logSpread] = [[...fit.coefficients], Math.log(fit.spread.value)];
    const top = value(b, logSpread);
    close(fit.logLikelihood, top, 1e-11);
    for (let k = 0; k < 4; k++) {
      const error = k < 3 ? (fit.standardErrors[k] as number) : fit.spread.standardError / fit.spread.value;
      const moved = (step: number) =>
        value(
          b.map((x, j) => (j === k ? x + step : x)),
          k === 3 ? logSpread + step : logSpread,
        );
      const gradient = (moved(1e-3 * error) - moved(-1e-3 * error)) / 2e-3;
      expect(Math.abs(gradient)).toBeLessThan(1e-5);
    }
  });

  it('the robust covariance is that of the derivatives in the weights, cluster by cluster', () => {
    const data = fleet(17, 45);
    const weight = data.exit.map((_, row) => 1 + (row % 3));
    const covariates = { wet: data.wet, load: data.load };
    for (const distribution of ['weibull', 'lognormal', 'exponential'] as const) {
      const fit = (weights: number[]) =>
        weibullRegression({ ...lives(data), weight: weights, cluster: data.cluster, covariates }, { distribution });
      const said = (weights: number[]) => {
        const { coefficients, spread } = fit(weights);
        return [...coefficients, ...(distribution === 'exponential' ? [] : [Math.log(spread.value)])];
      };
      const size = said(weight).length;
      const [sums, step] = [new Float64Array(size * size), 1e-4];
      for (const cluster of new Set(data.cluster)) {
        const moved = (by: number) => said(weight.map((w, row) => (data.cluster[row] === cluster ? w * (1 + by) : w)));
        const [up, down] = [moved(step), moved(-step)];
        const pull = up.map((value, k) => (value - (down[k] as number)) / (2 * step));
        sums.forEach((sum, cell) => {
          sums[cell] = sum + (pull[Math.floor(cell / size)] as number) * (pull[cell % size] as number);
        });
      }
      const largest = sums.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
      fit(weight).robustCovariance?.forEach((value, cell) =>
        expect(Math.abs(value - (sums[cell] as number))).toBeLessThan(1e-5 * largest),
      );
    }
  });

  it('folded and unfolded covariates give the same fit (3,000 lives)', () => {
    const data = fleet(21, 3000);
    const folded = weibullRegression({ ...lives(data), cluster: data.cluster, covariates: { wet: data.wet } });
    // A hair's breadth between equal values forbids folding.
    const hair = data.wet.map((x, row) => x + row * 1e-13);
    const unfolded = weibullRegression({ ...lives(data), cluster: data.cluster, covariates: { wet: hair } });
    folded.coefficients.forEach((value, j) => close(unfolded.coefficients[j] as number, value, 1e-8));
    folded.robustCovariance?.forEach((value, k) => close(unfolded.robustCovariance?.[k] as number, value, 1e-8));
  });

  it('robust limits hold where three wheel ends share a frailty and a covariate, model-based ones do not (300 fleets, seed 8)', () => {
    const random = createRandom(8);
    const covered = { model: 0, robust: 0 };
    for (let repeat = 0; repeat < 300; repeat++) {
      const data = { exit: [] as number[], event: [] as number[], cluster: [] as number[], x: [] as number[] };
      for (let vehicle = 0; vehicle < 60; vehicle++) {
        const [x, shared] = [vehicle % 2, 0.6 * random.normal()];
        for (let end = 0; end < 4; end++) {
          const life = Math.exp(4 + 0.3 * x + shared + 0.4 * random.normal());
          const stop = 200 * random.uniform();
          data.exit.push(Math.min(life, stop));
          data.event.push(life <= stop ? 1 : 0);
          data.cluster.push(vehicle);
          data.x.push(x);
        }
      }
      const { exit, event, cluster, x } = data;
      // Marginally log life is normal with the same effect of x.
      const fit = weibullRegression({ exit, event, cluster, covariates: { x } }, { distribution: 'lognormal' });
      const [ratio, truth] = [fit, Math.exp(0.3)];
      if ((ratio.lower[1] as number) <= truth && truth <= (ratio.upper[1] as number)) covered.model++;
      if ((ratio.robustLower?.[1] as number) <= truth && truth <= (ratio.robustUpper?.[1] as number)) covered.robust++;
    }
    expect(covered.robust / 300).toBeGreaterThan(0.91);
    expect(covered.model / 300).toBeLessThan(0.88);
  });
});
