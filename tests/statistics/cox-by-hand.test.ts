import { describe, expect, it } from 'vitest';
import { coxRegression, proportionalHazardsTest, type CoxRegression } from '../../lib/statistics/index.ts';

const { log, sqrt } = Math;
/** θ = e^β of a fit with one covariate. */
const ratioOf = ({ ratio }: CoxRegression): number => ratio[0] as number;

/**
 * Failures at 1, 2, 4 of lives with x = 1, 0, 1, and one with x = 0 still running at 6. The partial likelihood
 * θ/(2θ + 2) · 1/(θ + 2) · θ/(θ + 1) has its top where 2/(θ + 1) = θ/(θ + 2): θ² − θ − 4 = 0.
 */
const plain = { exit: [1, 2, 4, 6], event: [1, 1, 1, 0], covariates: { x: [1, 0, 1, 0] } };
const top = (1 + sqrt(17)) / 2;
const [p1, p2] = [top / (top + 1), top / (top + 2)];

describe('coxRegression by hand', () => {
  it('three failures without ties: θ = (1 + √17)/2, information Σ p(1 − p)', () => {
    const fit = coxRegression(plain);
    const information = 2 * p1 * (1 - p1) + p2 * (1 - p2);
    expect(ratioOf(fit)).toBeCloseTo(top, 12);
    expect(fit.covariance[0]).toBeCloseTo(1 / information, 10);
    expect(fit.logLikelihood).toBeCloseTo(2 * log(top) - log(2 * top + 2) - log(top + 2) - log(top + 1), 12);
    expect(fit.nullLogLikelihood).toBeCloseTo(-log(24), 12);
    // At θ = 1: 2 − 1/2 − 1/3 − 1/2, and 1/4 + 2/9 + 1/4.
    expect(fit.tests.score?.statistic).toBeCloseTo((2 / 3) ** 2 / (13 / 18), 12);
    expect(fit.tests.wald.statistic).toBeCloseTo(log(top) ** 2 * information, 10);
  });

  it('late entry: alive beside the first failure only those who had entered before it', () => {
    // At 2: x = 1 and 0 (the third enters at 2, after it); at 4 the second, third and fourth; at 5 the last two.
    const data = { entry: [0, 0, 2, 3], exit: [2, 4, 5, 6], event: [1, 1, 1, 0], covariates: { x: [1, 0, 1, 0] } };
    expect(ratioOf(coxRegression(data))).toBeCloseTo(top, 12);
  });

  /**
   * At 1 two failures (x = 1 and 0) and a censoring (x = 1) tied with them; a lone censoring at 2; a failure of x = 1
   * at 3; two of x = 0 running. Risk sets 3θ + 4 and θ + 2.
   */
  const tied = {
    exit: [1, 1, 1, 2, 3, 4, 4],
    event: [1, 1, 0, 0, 1, 0, 0],
    covariates: { x: [1, 0, 1, 0, 1, 0, 0] },
  };

  it('ties by Breslow: θ²/((3θ + 4)²(θ + 2)) has its top at 3θ² − 4θ − 16 = 0', () => {
    const fit = coxRegression(tied, { ties: 'breslow' });
    const t = (2 + 2 * sqrt(13)) / 3;
    expect(ratioOf(fit)).toBeCloseTo(t, 12);
    expect(fit.covariance[0]).toBeCloseTo(1 / ((24 * t) / (3 * t + 4) ** 2 + (2 * t) / (t + 2) ** 2), 10);
    expect(fit.logLikelihood).toBeCloseTo(2 * log(t) - 2 * log(3 * t + 4) - log(t + 2), 12);
  });

  it('ties by Efron: the second of the tied faces 3θ + 4 less half of the two that fail', () => {
    const fit = coxRegression(tied);
    const t = ratioOf(fit);
    const likelihood = (at: number) => 2 * log(at) - log(3 * at + 4) - log((5 * at + 7) / 2) - log(at + 2);
    expect(fit.logLikelihood).toBeCloseTo(likelihood(t), 12);
    expect(fit.nullLogLikelihood).toBeCloseTo(likelihood(1), 12);
    // Slope in β: 2 − 3θ/(3θ + 4) − 5θ/(5θ + 7) − θ/(θ + 2).
    expect(2 - (3 * t) / (3 * t + 4) - (5 * t) / (5 * t + 7) - t / (t + 2)).toBeCloseTo(0, 12);
    const information = (12 * t) / (3 * t + 4) ** 2 + (35 * t) / (5 * t + 7) ** 2 + (2 * t) / (t + 2) ** 2;
    expect(fit.covariance[0]).toBeCloseTo(1 / information, 10);
    const [u, v] = [2 - 3 / 7 - 5 / 12 - 1 / 3, 12 / 49 + 35 / 144 + 2 / 9];
    expect(fit.tests.score?.statistic).toBeCloseTo((u * u) / v, 12);
  });

  it('concordance: a censoring tied with a failure outlives it, two tied failures are no pair', () => {
    // Failed first, x = 1: over x = 0 at 2, 4, 4 concordant; over x = 1 at 1+ and 3 tied. Failed first, x = 0: 1+ and 3
    // discordant, 2, 4, 4 tied. Failed at 3, x = 1: over both at 4.
    expect(coxRegression(tied).concordance).toMatchObject({
      concordant: 5,
      discordant: 2,
      tiedRisk: 5,
      value: expect.closeTo(7.5 / 12, 14),
    });
  });

  it('an offset of log 2 on the exposed takes log 2 off their coefficient and leaves all else', () => {
    const [without, having] = [coxRegression(plain), coxRegression(plain, { offset: [log(2), 0, log(2), 0] })];
    expect(ratioOf(having)).toBeCloseTo(top / 2, 12);
    expect(having.logLikelihood).toBeCloseTo(without.logLikelihood, 12);
    expect(having.covariance[0]).toBeCloseTo(without.covariance[0] as number, 10);
  });

  it('strata: two copies, each its own risk sets, are twice the information', () => {
    const twice = (values: readonly number[]) => [...values, ...values];
    const strata = [...'aaaabbbb'];
    const data = {
      exit: twice(plain.exit),
      event: twice(plain.event),
      covariates: { x: twice(plain.covariates.x) },
      strata,
    };
    const [one, two] = [coxRegression(plain), coxRegression(data)];
    expect(ratioOf(two)).toBeCloseTo(top, 12);
    expect(two.covariance[0]).toBeCloseTo((one.covariance[0] as number) / 2, 10);
    expect(two.logLikelihood).toBeCloseTo(2 * one.logLikelihood, 12);
  });

  it('robust: score residuals worked row by row, summed over two clusters', () => {
    const fit = coxRegression({ ...plain, cluster: ['a', 'b', 'a', 'b'] }, { robustScore: true });
    const sandwichOf = (theta: number): [number, number] => {
      const [m1, m2, m3] = [theta / (theta + 1), theta / (theta + 2), theta / (theta + 1)];
      const [s1, s2, s3] = [2 * theta + 2, theta + 2, theta + 1];
      // Own failure's (x − mean) less risk · (x − mean)/S over the failures met while at risk.
      const first = (1 - m1) * (1 - theta / s1);
      const third = (1 - m3) * (1 - theta / s3) - (theta * (1 - m1)) / s1 - (theta * (1 - m2)) / s2;
      const second = -m2 * (1 - 1 / s2) + m1 / s1;
      const fourth = m1 / s1 + m2 / s2 + m3 / s3;
      return [first + third, second + fourth];
    };
    const [a, b] = sandwichOf(top);
    const variance = fit.covariance[0] as number;
    expect(fit.robustCovariance?.[0]).toBeCloseTo((a * a + b * b) * variance ** 2, 10);
    const [a0, b0] = sandwichOf(1);
    expect(fit.tests.robustScore?.statistic).toBeCloseTo((2 / 3) ** 2 / (a0 * a0 + b0 * b0), 12);
    expect(fit.warnings).toMatchObject([{ kind: 'few-clusters' }]);
  });

  it('Firth, one pair: log θ/(θ + 1) + ½ log θ/(θ + 1)² has its top at θ = 3 where the likelihood has none', () => {
    const pair = { exit: [1, 2], event: [1, 0], covariates: { x: [1, 0] } };
    expect(ratioOf(coxRegression(pair, { firth: true }))).toBeCloseTo(3, 9);
    expect(ratioOf(coxRegression(pair))).toBe(Infinity);
  });

  it('separation: one failure among three and three; θ/(3θ + 3) falls by e^(−χ²/2) of its top at p/(1 − p)', () => {
    const fit = coxRegression({
      exit: [1, 2, 3, 4, 5, 6],
      event: [1, 0, 0, 0, 0, 0],
      covariates: { x: [1, 0, 1, 0, 1, 0] },
    });
    const p = Math.exp(-3.8414588206941254 / 2);
    expect(ratioOf(fit)).toBe(Infinity);
    expect(fit.lower[0]).toBeCloseTo(p / (1 - p), 8);
    expect(fit.upper[0]).toBe(Infinity);
    expect(fit.logLikelihood).toBeCloseTo(-log(3), 8);
    expect(fit.warnings).toMatchObject([{ kind: 'separation', term: 'x' }]);
  });
});

describe('proportionalHazardsTest by hand', () => {
  it('times 1, 2, 4 about their mean 7/3: score Σ g(x − mean), variance Σ g²v − (Σ gv)²/Σ v', () => {
    const test = proportionalHazardsTest(plain, { transform: 'identity' });
    const g = [-4 / 3, -1 / 3, 5 / 3] as const;
    const v = [p1 * (1 - p1), p2 * (1 - p2), p1 * (1 - p1)] as const;
    const score = g[0] * (1 - p1) - g[1] * p2 + g[2] * (1 - p1);
    const sum = (power: 0 | 1 | 2) => g.reduce((total, value, k) => total + value ** power * (v[k] as number), 0);
    expect(test.statistic[0]).toBeCloseTo(score ** 2 / (sum(2) - sum(1) ** 2 / sum(0)), 11);
    // By two clusters, rows 1 and 3 and rows 2 and 4: Σ g(x − mean)(dN − risk/S) less V⁻¹Σ gv of Σ (x − mean)(dN − risk/S).
    const [m, s, x, exit] = [
      [p1, p2, p1],
      [2 * top + 2, top + 2, top + 1],
      [1, 0, 1, 0],
      [1, 2, 4, 6],
    ] as const;
    const lean = sum(1) / sum(0);
    const pull = (row: number) =>
      g.reduce((total, tilt, k) => {
        const [time, risk] = [[1, 2, 4][k] as number, x[row] === 1 ? top : 1];
        if (time > (exit[row] as number)) return total;
        const failed = time === exit[row] && row < 3 ? 1 : 0;
        return total + (tilt - lean) * ((x[row] as number) - (m[k] as number)) * (failed - risk / (s[k] as number));
      }, 0);
    const { robust } = proportionalHazardsTest({ ...plain, cluster: ['a', 'b', 'a', 'b'] }, { transform: 'identity' });
    const [a, b] = [pull(0) + pull(2), pull(1) + pull(3)];
    expect(robust?.statistic[0]).toBeCloseTo(score ** 2 / (a * a + b * b), 11);
    expect(robust?.global.statistic).toBeCloseTo(robust?.statistic[0] as number, 14);
    // 1994: score² · events · V / Σ g².
    expect(test.approximation.statistic[0]).toBeCloseTo((score ** 2 * 3) / sum(0) / (42 / 9), 11);
  });
});
