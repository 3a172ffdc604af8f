import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kaplanMeier } from '../../lib/statistics/kaplan-meier.ts';
import { createRandom } from '../../lib/statistics/numeric/random.ts';
import { turnbull } from '../../lib/statistics/turnbull.ts';

const close = (actual: ArrayLike<number>, expected: ArrayLike<number>, tolerance = 1e-9) => {
  expect(actual.length).toBe(expected.length);
  for (let k = 0; k < expected.length; k++)
    expect(Math.abs((actual[k] as number) - (expected[k] as number))).toBeLessThanOrEqual(tolerance);
};

describe('turnbull by hand', () => {
  it('four overlapping spans (0,2], (1,3], (2,4], (3,5]: half in (1,2], half in (3,4], none between', () => {
    // Likelihood p₁ (p₁ + p₂)(p₂ + p₃) p₃; with p₁ = p₃ = a by symmetry a² (1 − a)², largest at a = ½.
    const { intervals, survival, logLikelihood } = turnbull({ lower: [0, 1, 2, 3], upper: [2, 3, 4, 5] });
    close(intervals.lower, [1, 2, 3]);
    close(intervals.upper, [2, 3, 4]);
    close(intervals.mass, [0.5, 0, 0.5]);
    close(survival, [0.5, 0.5, 0]);
    close([logLikelihood], [4 * Math.log(0.5)]);
  });

  it('current status, one inspection time: the share found failed', () => {
    const { intervals } = turnbull({ lower: [0, 50], upper: [50, Infinity], weight: [3, 7] });
    close(intervals.lower, [0, 50]);
    expect([...intervals.upper]).toEqual([50, Infinity]);
    close(intervals.mass, [0.3, 0.7]);
  });

  it('current status with shares 2/4, 1/4, 4/4: neighbours out of order are pooled (3/8, 3/8, 1)', () => {
    const { intervals, survival } = turnbull({
      lower: [0, 10, 0, 20, 0],
      upper: [10, Infinity, 20, Infinity, 30],
      weight: [2, 2, 1, 3, 4],
    });
    close(intervals.upper, [10, 20, 30]);
    close(survival, [5 / 8, 5 / 8, 0]);
  });

  it('spans are open to the left: (a, b] and (b, c] do not share b, an exact life at b is in the first', () => {
    const apart = turnbull({ lower: [0, 5], upper: [5, 9] });
    close(apart.intervals.lower, [0, 5]);
    close(apart.intervals.upper, [5, 9]);
    const met = turnbull({ lower: [0, 5, 5], upper: [5, 9, 5] });
    close(met.intervals.lower, [5, 5]);
    close(met.intervals.upper, [5, 9]);
    close(met.intervals.mass, [2 / 3, 1 / 3]);
  });

  it('exact and running lives with ties: the product-limit steps 5/6, 5/8, 0 (an event before a tied running unit)', () => {
    const { intervals, survival } = turnbull({ exit: [2, 3, 4, 4, 5, 7], event: [1, 0, 1, 0, 0, 1] });
    close(intervals.lower, [2, 4, 7]);
    close(survival, [5 / 6, (5 / 6) * (3 / 4), 0]);
  });

  it('late entry between two spans: alive at 3 raises the risk set of the second only', () => {
    // Of two watched in (0,2] one ends; of three in (3,4] one.
    const { survival } = turnbull({ lower: [0, 3, 4, 4], upper: [2, 4, Infinity, Infinity], entry: [0, 0, 3, 3] });
    close(survival, [1 / 2, (1 / 2) * (2 / 3), 0]);
  });

  it('a risk set that runs empty ends the curve, and later lives do not disturb it', () => {
    const { intervals, survival, converged } = turnbull({ exit: [2, 9, 12], event: [1, 1, 0], entry: [0, 5, 5] });
    expect(converged).toBe(true);
    close(intervals.mass, [1, 0, 0]);
    close(survival, [0, 0, 0]);
  });

  it('where nobody was watched, between the last to leave and the next to enter, the curve stays flat', () => {
    const { intervals, survival } = turnbull({ exit: [2, 3, 13, 14], event: [0, 0, 0, 1], entry: [0, 0, 5, 5] });
    close(intervals.lower, [3, 14]);
    close(intervals.mass, [0, 1]);
    close(survival, [1, 0]);
  });

  it('one life; all running; refuses what it cannot read', () => {
    close(turnbull({ lower: [3], upper: [8] }).intervals.mass, [1]);
    close(turnbull({ lower: [3, 4], upper: [Infinity, Infinity] }).survival, [0]);
    expect(() => turnbull({ lower: [], upper: [] })).toThrow('upper: has no rows');
    expect(() => turnbull({ lower: [5], upper: [4] })).toThrow('lower[0]: 5 is above upper 4');
  });

  it('does not claim what it did not reach', () => {
    const random = createRandom(1);
    const lower = Array.from({ length: 200 }, () => 100 * random.uniform());
    const upper = lower.map((start) => start + 50 * random.uniform());
    const cut = turnbull({ lower, upper }, { maxIterations: 1 });
    expect(cut.converged).toBe(false);
    expect(cut.gap).toBeGreaterThan(1e-6);
    expect(turnbull({ lower, upper }).gap).toBeLessThan(1e-10);
  });
});

interface Spans {
  readonly lower: number[];
  readonly upper: number[];
  readonly entry: number[];
}

/** Exact, inspected, running and late-entered lives on a coarse grid, so that ends tie. */
function spans(seed: number, count: number): Spans {
  const random = createRandom(seed);
  const data: Spans = { lower: [], upper: [], entry: [] };
  while (data.lower.length < count) {
    const entry = random.uniform() < 0.3 ? random.below(8) : 0;
    const life = Math.ceil(20 * random.exponential() ** 0.6);
    if (life <= entry) continue;
    const kind = random.below(4);
    const from = entry + random.below(life - entry);
    data.lower.push(kind === 0 ? life : kind === 1 ? Math.max(from, entry) : entry + (kind === 2 ? from - entry : 0));
    data.upper.push(kind === 0 ? life : kind === 1 ? Infinity : life + random.below(6));
    data.entry.push(entry);
  }
  return data;
}

describe('turnbull laws', () => {
  const seeds = fc.integer({ min: 1, max: 1e6 });
  const sizes = fc.integer({ min: 2, max: 60 });

  it('masses are a distribution, the gap closes, and no distribution on the same support is likelier', () => {
    fc.assert(
      fc.property(seeds, sizes, (seed, size) => {
        const { lower, upper } = spans(seed, size);
        const { intervals, gap, logLikelihood } = turnbull({ lower, upper });
        const { mass } = intervals;
        close([mass.reduce((a, b) => a + b, 0)], [1]);
        expect(Math.min(...mass)).toBeGreaterThanOrEqual(0);
        expect(gap).toBeLessThan(1e-9);
        const value = (p: ArrayLike<number>) =>
          lower.reduce((sum, from, row) => {
            const to = upper[row] as number;
            let probability = 0;
            for (let j = 0; j < p.length; j++) {
              const [a, b] = [intervals.lower[j] as number, intervals.upper[j] as number];
              const inside = from === to ? a === from && b === from : (a > from || (a === from && a < b)) && b <= to;
              if (inside) probability += p[j] as number;
            }
            return sum + Math.log(probability);
          }, 0);
        close([value(mass)], [logLikelihood], 1e-8);
        const random = createRandom(seed);
        for (let k = 0; k < 5; k++) {
          const other = mass.map((m) => m + 0.01 * random.exponential());
          const total = other.reduce((a, b) => a + b, 0);
          expect(value(other.map((m) => m / total))).toBeLessThanOrEqual(logLikelihood + 1e-9);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('exact and running lives with late entry give the product-limit curve', () => {
    fc.assert(
      fc.property(seeds, sizes, (seed, size) => {
        const random = createRandom(seed);
        const entry = Array.from({ length: size }, () => (random.uniform() < 0.3 ? random.below(6) : 0));
        const exit = entry.map((start) => start + 1 + random.below(12));
        const event = exit.map(() => (random.uniform() < 0.6 ? 1 : 0));
        const [curve] = kaplanMeier({ exit, event, entry });
        const { intervals, survival, converged } = turnbull({ exit, event, entry });
        expect(converged).toBe(true);
        const at = (time: number) => {
          let value = 1;
          for (let j = 0; j < survival.length; j++)
            if ((intervals.upper[j] as number) <= time) value = survival[j] as number;
          return value;
        };
        curve?.time.forEach((time, k) => close([at(time)], [curve.survival[k] as number], 1e-8));
      }),
      { numRuns: 60 },
    );
  });

  it('row order, another unit of time, and weights for repeats change nothing', () => {
    fc.assert(
      fc.property(seeds, sizes, (seed, size) => {
        const { lower, upper, entry } = spans(seed, size);
        const weight = lower.map((_, row) => 1 + (row % 3));
        const one = turnbull({ lower, upper, entry, weight });
        const rows = [...lower.keys()].reverse().flatMap((row) => Array<number>(weight[row] as number).fill(row));
        const pick = (values: number[]) => rows.map((row) => (values[row] as number) * 1.609344);
        const other = turnbull({ lower: pick(lower), upper: pick(upper), entry: pick(entry) });
        close(other.survival, one.survival, 1e-7);
        close([other.logLikelihood], [one.logLikelihood], 1e-7);
      }),
      { numRuns: 60 },
    );
  });

  it('under truncation too the Kuhn-Tucker conditions hold at the end', () => {
    fc.assert(
      fc.property(seeds, sizes, (seed, size) => {
        const fit = turnbull(spans(seed, size));
        expect(fit.converged).toBe(true);
        expect(fit.gap).toBeLessThan(1e-8);
      }),
      { numRuns: 100 },
    );
  });

  it('comes to the truth as lives grow many: inspected 2,000, entered late 2,000 (seed 6)', () => {
    const random = createRandom(6);
    const data: Spans = { lower: [], upper: [], entry: [] };
    while (data.lower.length < 2000) {
      const entry = random.uniform() < 0.5 ? 60 * random.uniform() : 0;
      const life = 100 * random.exponential() ** 0.5;
      if (life <= entry) continue;
      let [from, to] = [entry, entry];
      while (to < life) [from, to] = [to, to + 10 + 30 * random.uniform()];
      data.lower.push(from);
      data.upper.push(from > 180 ? Infinity : to);
      data.entry.push(entry);
    }
    const { intervals, survival } = turnbull(data);
    let worst = 0;
    for (let j = 0; j < survival.length - 1; j++) {
      const at = intervals.upper[j] as number;
      if (at < 150) worst = Math.max(worst, Math.abs((survival[j] as number) - Math.exp(-((at / 100) ** 2))));
    }
    expect(worst).toBeLessThan(0.12);
  });

  it('100,000 inspected lives in seconds', () => {
    const random = createRandom(2);
    const [lower, upper] = [new Float64Array(1e5), new Float64Array(1e5)];
    for (let row = 0; row < 1e5; row++) {
      const life = 100 * random.exponential() ** 0.5;
      let [from, to] = [0, 0];
      while (to < life) [from, to] = [to, to + 20 + 40 * random.uniform()];
      lower[row] = from;
      upper[row] = from > 200 ? Infinity : to;
    }
    const fit = turnbull({ lower, upper });
    expect(fit.converged).toBe(true);
    expect(fit.gap).toBeLessThan(1e-9);
    // Steps, not seconds, so that a busy machine cannot fail it: eleven when written.
    expect(fit.iterations).toBeLessThan(40);
  });
});
