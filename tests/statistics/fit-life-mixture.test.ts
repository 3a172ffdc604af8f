import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLife } from '../../lib/statistics/fit-life.ts';
import { createRandom, type Random } from '../../lib/statistics/numeric/random.ts';

const close = (actual: number, expected: number, tolerance = 1e-9) =>
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));
const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const mixture = { distribution: 'weibull-mixture' } as const;

interface Lives {
  readonly exit: number[];
  readonly event: number[];
  readonly entry: number[];
}

/** A share `early` of lives Weibull(0.9, 30), the rest Weibull(3, 300); running units, late entries. */
function lives(random: Random, count: number, early: number, late = 0.2): Lives {
  const data: Lives = { exit: [], event: [], entry: [] };
  while (data.exit.length < count) {
    const life =
      random.uniform() < early ? 30 * random.exponential() ** (1 / 0.9) : 300 * random.exponential() ** (1 / 3);
    const entry = random.uniform() < late ? 100 * random.uniform() : 0;
    if (life <= entry) continue;
    const end = entry + 500 * random.uniform();
    data.exit.push(Math.min(life, end));
    data.event.push(life <= end ? 1 : 0);
    data.entry.push(entry);
  }
  return data;
}

/** The log-likelihood written out on its own, in shares, shapes and scales. */
function logLikelihood(
  { exit, event, entry }: Lives,
  [p, b1, s1, b2, s2]: [number, number, number, number, number],
): number {
  const survival = (t: number) => p * Math.exp(-((t / s1) ** b1)) + (1 - p) * Math.exp(-((t / s2) ** b2));
  const density = (t: number, b: number, s: number) => (b / s) * (t / s) ** (b - 1) * Math.exp(-((t / s) ** b));
  return sum(
    exit.map((t, row) => {
      const end = event[row] ? p * density(t, b1, s1) + (1 - p) * density(t, b2, s2) : survival(t);
      return Math.log(end) - Math.log(survival(entry[row] as number));
    }),
  );
}

describe('weibull-mixture', () => {
  const data = lives(createRandom(7), 800, 0.25);
  const fit = fitLife(data, mixture);
  const { earlyShare, earlyShape, earlyScale, wearOutShape, wearOutScale } = fit.parameters;
  const values = [earlyShare, earlyShape, earlyScale, wearOutShape, wearOutScale].map((estimate) => estimate.value);

  it('finds the planted parts, the early one first, within three standard errors', () => {
    expect(fit.supported).toBe(true);
    const truth = [0.25, 0.9, 30, 3, 300];
    [earlyShare, earlyShape, earlyScale, wearOutShape, wearOutScale].forEach(
      ({ value, standardError, lower, upper }, k) => {
        expect(Math.abs(value - (truth[k] as number))).toBeLessThan(3 * standardError);
        expect(lower).toBeLessThan(value);
        expect(upper).toBeGreaterThan(value);
      },
    );
    expect(earlyShare.lower).toBeGreaterThan(0);
  });

  it('its likelihood is that of the mixture written out, and flat there', () => {
    const at = (v: number[]) => logLikelihood(data, v as [number, number, number, number, number]);
    close(fit.logLikelihood, at(values), 1e-11);
    values.forEach((_, k) => {
      const moved = (factor: number) => at(values.map((v, j) => (j === k ? v * factor : v)));
      expect(Math.abs(moved(1 + 1e-5) - moved(1 - 1e-5)) / 2e-5).toBeLessThan(1e-4);
    });
  });

  it('its covariance is minus the inverse of the Hessian, by second differences', () => {
    const at = (v: number[]) => logLikelihood(data, v as [number, number, number, number, number]);
    const step = (k: number) => 1e-4 * (values[k] as number);
    const moved = (i: number, a: number, j: number, b: number) =>
      at(values.map((v, k) => v + (k === i ? a * step(i) : 0) + (k === j ? b * step(j) : 0)));
    const hessian = values.map((_, i) =>
      values.map(
        (__, j) =>
          (moved(i, 1, j, 1) - moved(i, 1, j, -1) - moved(i, -1, j, 1) + moved(i, -1, j, -1)) / (4 * step(i) * step(j)),
      ),
    );
    // Hessian times covariance is minus the identity.
    hessian.forEach((row, i) =>
      values.forEach((_, j) => {
        const entry = sum(row.map((h, k) => h * (fit.covariance?.[k * 5 + j] as number)));
        const scale = (values[j] as number) / (values[i] as number);
        expect(Math.abs(entry / scale + (i === j ? 1 : 0))).toBeLessThan(1e-3);
      }),
    );
  });

  it('lifeAt turns survivalAt about, and its error is the delta method by differences', () => {
    for (const fraction of [0.01, 0.1, 0.5, 0.9]) {
      const life = fit.lifeAt(fraction);
      close(fit.survivalAt(life.value).value, 1 - fraction, 1e-10);
      const solve = (v: number[]) => {
        const [p, b1, s1, b2, s2] = v as [number, number, number, number, number];
        const survival = (t: number) => p * Math.exp(-((t / s1) ** b1)) + (1 - p) * Math.exp(-((t / s2) ** b2));
        let [low, high] = [1e-9, 1e5];
        for (let k = 0; k < 200; k++) {
          const middle = (low + high) / 2;
          if (survival(middle) > 1 - fraction) low = middle;
          else high = middle;
        }
        return low;
      };
      const gradient = values.map((value, k) => {
        const at = (factor: number) => solve(values.map((v, j) => (j === k ? v * factor : v)));
        return (at(1 + 1e-5) - at(1 - 1e-5)) / (2e-5 * value);
      });
      const variance = sum(
        gradient.map((a, i) => sum(gradient.map((b, j) => a * b * (fit.covariance?.[i * 5 + j] as number)))),
      );
      close(life.standardError / Math.sqrt(variance), 1, 1e-4);
    }
  });

  it('is not called for by one Weibull (100 fleets of 100, seed 3, short form): believed in at most 7', () => {
    const random = createRandom(3);
    let believed = 0;
    for (let repeat = 0; repeat < 100; repeat++) if (fitLife(lives(random, 100, 0), mixture).supported) believed++;
    expect(believed).toBeLessThanOrEqual(7);
  });

  it('limits of B10 cover (60 fleets of 400, seed 4, short form)', () => {
    const random = createRandom(4);
    // 0.25 (1 − e^−(t/30)^0.9) + 0.75 (1 − e^−(t/300)³) = 0.1, by bisection.
    let [low, high] = [0, 300];
    for (let k = 0; k < 100; k++) {
      const t = (low + high) / 2;
      if (0.25 * Math.exp(-((t / 30) ** 0.9)) + 0.75 * Math.exp(-((t / 300) ** 3)) > 0.9) low = t;
      else high = t;
    }
    let covered = 0;
    for (let repeat = 0; repeat < 60; repeat++) {
      const { lower, upper } = fitLife(lives(random, 400, 0.25), mixture).lifeAt(0.1);
      if (lower <= low && low <= upper) covered++;
    }
    expect(covered / 60).toBeGreaterThan(0.88);
  });

  it('another unit of time, row order and repeats for weights change nothing', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), (seed) => {
        const { exit, event, entry } = lives(createRandom(seed), 200, 0.3);
        const one = fitLife({ exit, event, entry, weight: exit.map(() => 2) }, mixture);
        if (!one.supported) return;
        const twice = (values: number[], unit: number) => [...values, ...values].reverse().map((value) => value * unit);
        const other = fitLife({ exit: twice(exit, 1000), event: twice(event, 1), entry: twice(entry, 1000) }, mixture);
        close(other.parameters.earlyShare.value, one.parameters.earlyShare.value, 1e-6);
        close(other.parameters.wearOutScale.standardError / 1000, one.parameters.wearOutScale.standardError, 1e-5);
      }),
      { numRuns: 8 },
    );
  });

  it('inspected lives; a cluster of rows; few failures', () => {
    const lower = data.exit.map((t, row) => (data.event[row] ? Math.max(data.entry[row] as number, t * 0.999) : t));
    const upper = data.exit.map((t, row) => (data.event[row] ? t * 1.001 : Infinity));
    const spans = fitLife({ lower, upper, entry: data.entry }, mixture);
    close(spans.parameters.earlyShare.value, earlyShare.value, 1e-3);
    const cluster = data.exit.map((_, row) => Math.floor(row / 2));
    const robust = fitLife({ ...data, cluster }, mixture);
    close(robust.parameters.earlyShare.value, earlyShare.value, 1e-9);
    close((robust.parameters.earlyShare.robust?.standardError ?? 0) / earlyShare.standardError, 1, 0.3);
    const few = fitLife({ exit: [10, 20, 400, 500, 600], event: [1, 1, 1, 1, 0] }, mixture);
    expect(few.supported).toBe(false);
    expect(few.reason).not.toBeNull();
  });

  it('many lives are fitted from a thinned start to the same maximum (20,000)', () => {
    const many = lives(createRandom(9), 20000, 0.1);
    const whole = fitLife(many, mixture);
    expect(whole.supported).toBe(true);
    const { value, standardError } = whole.parameters.earlyShare;
    expect(Math.abs(value - 0.1)).toBeLessThan(3.5 * standardError);
  });
});
