import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLife } from '../../lib/statistics/fit-life.ts';
import { createRandom } from '../../lib/statistics/numeric/random.ts';
import type { FittedLife } from '../../lib/statistics/parameter-draws.ts';
import { replacementInterval } from '../../lib/statistics/replacement-interval.ts';

const close = (actual: number | null, expected: number, tolerance = 1e-6) =>
  expect(Math.abs((actual ?? NaN) - expected)).toBeLessThanOrEqual(tolerance * Math.max(1e-9, Math.abs(expected)));

/** A fit known beforehand, as sure as `error` on the log scale says. */
function known(distribution: FittedLife['distribution'], values: number[], error = 1e-6): FittedLife {
  const n = values.length;
  const covariance = Float64Array.from({ length: n * n }, (_, k) => (k % (n + 1) === 0 ? error * error : 0));
  const working = { names: [], values: Float64Array.from(values), covariance, robustCovariance: null };
  return { distribution, working, converged: true, observedTo: Infinity };
}

const weibull = (shape: number, scale: number, error?: number) =>
  known('weibull', [Math.log(scale), -Math.log(shape)], error);
const draws = { random: createRandom(1), draws: 200 };

/** Simpson's rule on a fine grid: the renewal cost by its definition. */
function costBySimpson(survival: (t: number) => number, planned: number, failure: number, age: number): number {
  const steps = 2000;
  let integral = 0;
  for (let k = 0; k <= steps; k++)
    integral += (k === 0 || k === steps ? 1 : k % 2 ? 4 : 2) * survival((age * k) / steps);
  return (planned * survival(age) + failure * (1 - survival(age))) / ((integral * age) / steps / 3);
}

describe('replacementInterval by hand', () => {
  it('Weibull shape 2: at the optimum hazard × ∫S − F = c_planned / (c_failure − c_planned), and cost = (c_f − c_p) hazard', () => {
    const [scale, planned, failure] = [100, 1, 5];
    const survival = (t: number) => Math.exp(-((t / scale) ** 2));
    const plan = replacementInterval(weibull(2, scale), { plannedCost: planned, failureCost: failure, ...draws });
    const age = plan.age.value as number;
    const hazard = (2 * age) / scale ** 2;
    expect(plan.recommended).toBe(true);
    close(plan.costRate.value, costBySimpson(survival, planned, failure, age));
    close(plan.costRate.value, (failure - planned) * hazard);
    // Mean life scale × Γ(3/2) = scale √π / 2.
    close(plan.runToFailure.value, failure / ((scale * Math.sqrt(Math.PI)) / 2));
    close(plan.saving.value, 1 - (plan.costRate.value as number) / (plan.runToFailure.value as number));
    const integral = (planned * survival(age) + failure * (1 - survival(age))) / (plan.costRate.value as number);
    close(hazard * integral - (1 - survival(age)), planned / (failure - planned));
  });

  it('ages between which the cost is within 5 % of the least have just that cost', () => {
    const survival = (t: number) => Math.exp(-((t / 100) ** 2.5));
    const plan = replacementInterval(weibull(2.5, 100), { plannedCost: 2, failureCost: 9, ...draws });
    for (const end of [plan.flat.from, plan.flat.to])
      close(costBySimpson(survival, 2, 9, end as number), 1.05 * (plan.costRate.value as number));
  });

  it.each([
    ['lognormal', known('lognormal', [Math.log(100), Math.log(0.3)])],
    ['weibull-mixture', known('weibull-mixture', [-1, Math.log(60), Math.log(0.5), Math.log(200), Math.log(0.25)])],
    ['exponential', known('exponential', [Math.log(80)])],
  ])(
    'the cost curve of %s is its definition, by quadrature',
    (_, fit) => {
      const { curve } = replacementInterval(fit, {
        plannedCost: 1,
        failureCost: 4,
        ...draws,
        ages: [10, 60, 150, 400],
      });
      const normalTail = (z: number) => {
        // P(Z > z) by Simpson over 18 standard deviations; further below zero it is 1 to all digits.
        if (z < -9) return 1;
        let sum = 0;
        for (let k = 0; k <= 4000; k++)
          sum += (k % 4000 ? (k % 2 ? 4 : 2) : 1) * Math.exp(-0.5 * (z + (18 * k) / 4000) ** 2);
        return (sum * (18 / 4000)) / 3 / Math.sqrt(2 * Math.PI);
      };
      const w = fit.working.values;
      const part = (t: number, k: number) =>
        Math.exp(-Math.exp((Math.log(t) - (w[k] as number)) / Math.exp(w[k + 1] as number)));
      const survival = (t: number) => {
        if (t === 0) return 1;
        if (fit.distribution === 'exponential') return Math.exp(-t / 80);
        if (fit.distribution === 'lognormal') return normalTail((Math.log(t) - Math.log(100)) / 0.3);
        const share = 1 / (1 + Math.exp(1));
        return share * part(t, 1) + (1 - share) * part(t, 3);
      };
      curve.age.forEach((age, k) => close(curve.costRate[k] as number, costBySimpson(survival, 1, 4, age)));
    },
    120_000,
  );

  it('a wear-out so sharp that nothing fails before: replace just before, at the planned cost per that age', () => {
    const plan = replacementInterval(weibull(200, 100), { plannedCost: 1, failureCost: 50, ...draws });
    expect(plan.age.value as number).toBeGreaterThan(90);
    expect(plan.age.value as number).toBeLessThan(100);
    close(plan.costRate.value, 1 / (plan.age.value as number), 0.02);
  });
});

describe('replacementInterval against R', () => {
  // Weibull shape 2, scale 100, planned 1, failure 6. R 4.5: uniroot of the optimum equation (Barlow & Proschan 1965, §4.2)
  // h(a) ∫₀^a S − F(a) = planned / (failure − planned), integrate() to 1e-12 for the costs.
  const plan = replacementInterval(weibull(2, 100), {
    ...{ plannedCost: 1, failureCost: 6, flatWithin: 0.02, ages: [30, 45.48037651], ...draws },
  });

  it('the optimum, its cost and that of running to failure', () => {
    close(plan.leastCostAge, 45.48037651, 1e-4);
    close(plan.costRate.value, 0.0454803765, 1e-8);
    close(plan.runToFailure.value, 0.06770275, 1e-8);
  });
  it('the stretch within 2 % of the least', () => {
    close(plan.flat.from, 36.818107, 1e-4);
    close(plan.flat.to, 56.566974, 1e-4);
  });
  it('the saving per unit of age, and by age', () => {
    close(plan.savingRate.value, 0.06770275 - 0.0454803765, 1e-7);
    close(plan.curve.saving[1] as number, 1 - 0.0454803765 / 0.06770275, 1e-7);
    expect(plan.curve.saving[0] as number).toBeLessThan(plan.curve.saving[1] as number);
    expect(plan.savingRate.lower as number).toBeLessThan(plan.savingRate.value as number);
    expect((plan.curve.savingLower[1] as number) > 0).toBe(true);
  });
  it('names the age of least cost even where the saving is not sure', () => {
    const unsure = replacementInterval(weibull(1.6, 100, 0.5), { plannedCost: 1, failureCost: 6, ...draws });
    expect(unsure.age.value).toBeNull();
    expect(unsure.leastCostAge as number).toBeGreaterThan(0);
  });
});

describe('replacementInterval refuses, and says why', () => {
  const costs = { plannedCost: 1, failureCost: 6, ...draws };

  it('no wear-out: the hazard is constant, or falls', () => {
    for (const fit of [known('exponential', [4]), weibull(1, 100), weibull(0.7, 100)]) {
      const plan = replacementInterval(fit, costs);
      expect(plan.recommended).toBe(false);
      expect(plan.age).toEqual({ value: null, lower: null, upper: null });
      expect(plan.reason).toMatch(/no planned age beats|does not exclude zero/);
    }
  });

  it('wear-out, but not for sure: the interval of the saving holds zero', () => {
    const plan = replacementInterval(weibull(1.6, 100, 0.5), costs);
    expect(plan.saving.value as number).toBeGreaterThan(0);
    expect(plan.saving.lower as number).toBeLessThan(0);
    expect(plan.recommended).toBe(false);
    expect(plan.reason).toBe('the 95\u00a0% interval for the saving does not exclude zero');
    expect(plan.age.value).toBeNull();
  });

  it('a failure no dearer than a planned replacement', () => {
    const plan = replacementInterval(weibull(4, 100), { ...costs, failureCost: 1 });
    expect(plan.reason).toMatch(/costs no more than a planned replacement/);
  });

  it('a fit that cannot be planned on: not converged, not called for, without errors', () => {
    const fit = weibull(3, 100);
    const without = { ...fit, working: { ...fit.working, covariance: null } };
    expect(replacementInterval({ ...fit, converged: false }, costs).reason).toMatch(/did not converge/);
    expect(replacementInterval({ ...fit, supported: false }, costs).reason).toMatch(/two parts/);
    expect(replacementInterval(without, costs).reason).toMatch(/no finite standard errors/);
    expect(replacementInterval(without, costs).saving.lower).toBeNull();
  });

  it('bad arguments', () => {
    const fit = weibull(3, 100);
    expect(() => replacementInterval(fit, { ...costs, plannedCost: 0 })).toThrow('plannedCost: 0');
    expect(() => replacementInterval(fit, { ...costs, failureCost: NaN })).toThrow('failureCost');
    expect(() => replacementInterval(fit, { ...costs, level: 0 })).toThrow('level');
    expect(() => replacementInterval(fit, { ...costs, draws: 10 })).toThrow('draws: 10');
    expect(() => replacementInterval(fit, { ...costs, ages: [5, -1] })).toThrow('ages[1]: -1');
  });

  it('says how much of the run-to-failure life lies beyond what was seen', () => {
    // Exponential: mean up to 50 of a mean of 100 is 1 − e^(−1/2).
    const fit = { ...known('exponential', [Math.log(100)]), observedTo: 50 };
    close(replacementInterval(fit, costs).meanBeyondObserved, Math.exp(-0.5));
  });
});

describe('replacementInterval laws', () => {
  it('only the cost ratio moves the age; the unit of age scales it; draws follow the seed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.3, max: 8, noNaN: true }),
        fc.double({ min: 2, max: 30, noNaN: true }),
        (shape, ratio) => {
          const plan = (scale: number, money: number) =>
            replacementInterval(weibull(shape, scale, 0.05), {
              plannedCost: money,
              failureCost: money * ratio,
              random: createRandom(5),
              draws: 200,
            });
          const [one, other] = [plan(100, 1), plan(160_934.4, 7)];
          expect(other.recommended).toBe(one.recommended);
          // The cost is flat at its least: the age is good to half the digits, and savings are shares of one.
          expect(Math.abs((other.saving.value as number) - (one.saving.value as number))).toBeLessThan(1e-8);
          expect(Math.abs((other.saving.lower as number) - (one.saving.lower as number))).toBeLessThan(1e-6);
          if (one.recommended) {
            close(other.age.value, 1609.344 * (one.age.value as number));
            close(other.age.upper, 1609.344 * (one.age.upper as number));
          }
          close(other.costRate.value, (7 / 1609.344) * (one.costRate.value as number));
        },
      ),
      { numRuns: 12 },
    );
  });

  it('lives that do not wear out seldom get a planned age (40 fleets of 80 exponential lives, seed 2, short form)', () => {
    const random = createRandom(2);
    let ordered = 0;
    for (let repeat = 0; repeat < 40; repeat++) {
      const end = Array.from({ length: 80 }, () => 200 * random.uniform());
      const life = end.map(() => 100 * random.exponential());
      const fit = fitLife(
        {
          exit: life.map((t, k) => Math.min(t, end[k] as number)),
          event: life.map((t, k) => (t <= (end[k] as number) ? 1 : 0)),
        },
        { distribution: 'weibull' },
      );
      const plan = replacementInterval(fit, { plannedCost: 1, failureCost: 8, random, draws: 200, ages: [50] });
      if (plan.recommended) ordered++;
    }
    expect(ordered).toBeLessThanOrEqual(3);
  });
});
