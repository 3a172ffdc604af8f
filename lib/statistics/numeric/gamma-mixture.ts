import digamma from '@stdlib/math-base-special-digamma';
import gammaln from '@stdlib/math-base-special-gammaln';

export interface GammaPart {
  readonly shape: number;
  readonly rate: number;
  /** Weights of all parts sum to 1. */
  readonly weight: number;
}

/**
 * Quantiles of a mixture of gamma distributions, for probabilities in ascending order, good to about 1e-5 in
 * probability: the density of the logarithm, which is smooth whatever the shapes, is summed on a grid by the trapezoid
 * rule with its first Euler–Maclaurin correction. Much quicker than root finding on incomplete gamma functions.
 */
export function gammaMixtureQuantiles(parts: readonly GammaPart[], probabilities: readonly number[]): number[] {
  const { from, step, places } = grid(parts);
  const logNorm = parts.map(({ shape, rate, weight }) => Math.log(weight) + shape * Math.log(rate) - gammaln(shape));
  // Left of the grid the density of the logarithm falls off by e^(−(shape − rate·x)) a unit: exact as x → 0.
  let below = parts.reduce((sum, { shape, rate }, i) => {
    const x = Math.exp(from);
    return sum + Math.exp((logNorm[i] as number) + shape * from - rate * x) / Math.max(shape - rate * x, shape / 100);
  }, 0);
  let [density, slope] = densityAt(parts, logNorm, from);
  const found: number[] = [];
  for (let place = 1; place <= places && found.length < probabilities.length; place++) {
    const at = from + place * step;
    const [next, nextSlope] = densityAt(parts, logNorm, at);
    const cell = (step / 2) * (density + next) - (step ** 2 / 12) * (nextSlope - slope);
    while (found.length < probabilities.length && below + cell >= (probabilities[found.length] as number)) {
      const need = (probabilities[found.length] as number) - below;
      found.push(Math.exp(at - step + within(need, cell, density, slope, next, step)));
    }
    [below, density, slope] = [below + cell, next, nextSlope];
  }
  while (found.length < probabilities.length) found.push(Math.exp(from + places * step));
  return found;
}

/** Where the density, taken as the parabola with this start, slope and end, has summed to `need` of the cell's `all`. */
function within(need: number, all: number, start: number, slope: number, end: number, step: number): number {
  const bend = (end - start - slope * step) / step ** 2;
  const summed = (u: number) => u * (start + u * (slope / 2 + (u * bend) / 3));
  const target = (need / all) * summed(step);
  let u = (need / all) * step;
  for (let round = 0; round < 4; round++) {
    const density = start + u * (slope + u * bend);
    if (density > 0) u = Math.min(step, Math.max(0, u - (summed(u) - target) / density));
  }
  return u;
}

/** Density of log x, and its derivative. */
function densityAt(parts: readonly GammaPart[], logNorm: readonly number[], logX: number): [number, number] {
  const x = Math.exp(logX);
  let [density, slope] = [0, 0];
  for (let i = 0; i < parts.length; i++) {
    const { shape, rate } = parts[i] as GammaPart;
    const part = Math.exp((logNorm[i] as number) + shape * logX - rate * x);
    density += part;
    slope += part * (shape - rate * x);
  }
  return [density, slope];
}

/** Logarithms from far below the bulk to far above it, spaced a sixth of the narrowest part's own spread. */
function grid(parts: readonly GammaPart[]): { from: number; step: number; places: number } {
  let [from, to, narrowest] = [Infinity, -Infinity, Infinity];
  for (const { shape, rate } of parts) {
    const middle = digamma(shape) - Math.log(rate);
    const spread = 1 / Math.sqrt(shape) + (shape < 1 ? 1 / shape : 0);
    from = Math.min(from, middle - 8 * spread);
    to = Math.max(to, Math.log((shape + 9 * Math.sqrt(shape) + 12) / rate));
    narrowest = Math.min(narrowest, 1 / Math.sqrt(shape));
  }
  const places = Math.min(6_000, Math.ceil((6 * (to - from)) / narrowest));
  return { from, step: (to - from) / places, places };
}
