import { StatisticsError } from '../statistics-error.ts';

/** A stream of random numbers that a seed fixes for good; nothing here reads a clock or the platform's generator. */
export interface Random {
  /** Strictly between 0 and 1. */
  uniform(): number;
  normal(): number;
  /** Mean 1. */
  exponential(): number;
  /** Mean `shape`, scale 1. */
  gamma(shape: number): number;
  poisson(mean: number): number;
  /** Whole number from 0 to `count` − 1. */
  below(count: number): number;
}

/**
 * xoshiro128**, its state filled from the seed by splitmix32.
 *
 * Source: Blackman & Vigna 2021, ACM TOMS 47:36. Outside check: mean and variance of each law against closed forms.
 *
 * @throws StatisticsError for a seed that is not a whole number.
 */
export function createRandom(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new StatisticsError('seed', `${seed} is not a whole number`);
  const next = bits(seed);
  // 52 bits and a half: the most that is exact, so neither 0 nor 1 can come out by rounding.
  const uniform = () => ((next() >>> 6) * 67_108_864 + (next() >>> 6) + 0.5) / 4_503_599_627_370_496;
  const exponential = () => -Math.log(uniform());
  let spare: number | null = null;
  const normal = (): number => {
    if (spare !== null) {
      const value = spare;
      spare = null;
      return value;
    }
    // Box & Muller 1958.
    const [radius, angle] = [Math.sqrt(2 * exponential()), 2 * Math.PI * uniform()];
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  const gamma = (shape: number): number => drawGamma(shape, uniform, normal);
  return {
    ...{ uniform, normal, exponential, gamma },
    poisson: (mean) => drawPoisson(mean, uniform, gamma),
    below: (count) => Math.floor(uniform() * count),
  };
}

function bits(seed: number): () => number {
  let z = (seed ^ Math.floor(seed / 4_294_967_296)) | 0;
  const split = () => {
    z = (z + 0x9e3779b9) | 0;
    let t = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    t = Math.imul(t ^ (t >>> 15), 0x735a2d97);
    return t ^ (t >>> 15);
  };
  let [a, b, c, d] = [split(), split(), split(), split()];
  const turn = (x: number, by: number) => (x << by) | (x >>> (32 - by));
  return () => {
    const result = Math.imul(turn(Math.imul(b, 5), 7), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = turn(d, 11);
    return result >>> 0;
  };
}

/** Marsaglia & Tsang 2000, ACM TOMS 26:363; a shape below 1 is one above it times U^(1/shape). */
function drawGamma(shape: number, uniform: () => number, normal: () => number): number {
  if (shape < 1) return drawGamma(shape + 1, uniform, normal) * uniform() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal();
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

/** By the waiting time of a middle event while the mean is large (Ahrens & Dieter 1974), then by multiplication. */
function drawPoisson(mean: number, uniform: () => number, gamma: (shape: number) => number): number {
  let count = 0;
  let left = mean;
  while (left > 30) {
    const order = Math.floor((left * 7) / 8);
    const waited = gamma(order);
    if (waited > left) return count + drawBinomial(order - 1, left / waited, uniform);
    count += order;
    left -= waited;
  }
  const floor = Math.exp(-left);
  for (let product = uniform(); product > floor; product *= uniform()) count++;
  return count;
}

function drawBinomial(trials: number, share: number, uniform: () => number): number {
  let hits = 0;
  for (let trial = 0; trial < trials; trial++) if (uniform() < share) hits++;
  return hits;
}
