import gammaln from '@stdlib/math-base-special-gammaln';
import { toLevel, type Interval } from './interval.ts';
import { findRoot } from './numeric/find-root.ts';
import { StatisticsError } from './statistics-error.ts';

export interface FisherExact extends Interval {
  /** Conditional maximum likelihood odds ratio; null where unbounded. Not ad/bc, which is `sampleOddsRatio`. */
  readonly value: number | null;
  readonly level: number;
  /** Sum of the probabilities of all tables no likelier than the one seen; may disagree with the limits. */
  readonly pValue: number;
  /** Chance of a first cell as low, or as high, as seen under no association. */
  readonly pLess: number;
  readonly pGreater: number;
  readonly sampleOddsRatio: number | null;
  readonly reason: string | null;
}

/**
 * Fisher's exact test of a two-by-two table [[a, b], [c, d]] and its conditional odds ratio, with the central exact
 * limits: each tail holds (1 − level)/2.
 *
 * Source: Agresti, Categorical Data Analysis, §3.5 and §16.6.4; Fisher 1935. Outside check: reference cases fisher-*
 * and prop-* (R's fisher.test; its odds ratio and limits stop four or five digits in, at its root finder's default
 * tolerance, so these are also checked against the polynomial they solve).
 *
 * @throws StatisticsError for cells that are not counts or a level outside (0, 1).
 */
export function fisherExact(
  table: readonly [readonly [number, number], readonly [number, number]],
  options: { readonly level?: number } = {},
): FisherExact {
  const level = toLevel(options.level);
  const [[a, b], [c, d]] = table;
  [a, b, c, d].forEach((cell, index) => {
    if (!(Number.isInteger(cell) && cell >= 0)) throw new StatisticsError('table', `${cell} is not a count`, index);
  });
  const counts = possibleCounts(a, a + b, c + d, a + c);
  const tail = (1 - level) / 2;
  const { lowest, highest } = counts;
  const null0 = distribution(counts, 0);
  const here = null0[a - lowest] as number;
  const common = {
    level,
    pValue: Math.min(
      1,
      null0.reduce((sum, mass) => (mass <= here * (1 + 1e-7) ? sum + mass : sum), 0),
    ),
    pLess: tailSum(null0, 0, a - lowest),
    pGreater: tailSum(null0, a - lowest, null0.length - 1),
    sampleOddsRatio: b * c > 0 ? (a * d) / (b * c) : null,
  };
  if (lowest === highest)
    return { value: null, lower: 0, upper: null, ...common, reason: 'a margin is zero: no table but this is possible' };
  const solve = (f: (masses: Float64Array) => number) => Math.exp(solveLogOdds((x) => f(distribution(counts, x))));
  const first = a - lowest;
  return {
    value: a === lowest ? 0 : a === highest ? null : solve((masses) => mean(masses) - first),
    lower: a === lowest ? 0 : solve((masses) => tailSum(masses, first, masses.length - 1) - tail),
    upper: a === highest ? null : solve((masses) => tail - tailSum(masses, 0, first)),
    ...common,
    reason: a === highest ? 'the odds ratio is unbounded: a cell is zero' : null,
  };
}

interface Counts {
  readonly lowest: number;
  readonly highest: number;
  /** Log hypergeometric mass of each possible first cell, up to a constant. */
  readonly logMass: Float64Array;
}

function possibleCounts(seen: number, row1: number, row2: number, column1: number): Counts {
  const lowest = Math.max(0, column1 - row2);
  const highest = Math.min(row1, column1);
  const logWays = (n: number, k: number) => gammaln(n + 1) - gammaln(k + 1) - gammaln(n - k + 1);
  const logMass = new Float64Array(highest - lowest + 1).map((_, index) => {
    const count = lowest + index;
    return logWays(row1, count) + logWays(row2, column1 - count);
  });
  const base = logMass[seen - lowest] as number;
  return { lowest, highest, logMass: logMass.map((value) => value - base) };
}

/** Probability of each possible first cell at log odds ratio `logOdds` (non-central hypergeometric). */
function distribution({ logMass }: Counts, logOdds: number): Float64Array {
  const tilted = logMass.map((value, index) => value + index * logOdds);
  const greatest = tilted.reduce((most, value) => Math.max(most, value), -Infinity);
  const masses = tilted.map((value) => Math.exp(value - greatest));
  const total = masses.reduce((sum, mass) => sum + mass, 0);
  return masses.map((mass) => mass / total);
}

const mean = (masses: Float64Array): number => masses.reduce((sum, mass, index) => sum + mass * index, 0);

function tailSum(masses: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let index = from; index <= to; index++) sum += masses[index] as number;
  return Math.min(1, sum);
}

/** Root of a function increasing in the log odds ratio; the bracket widens until it holds it. */
function solveLogOdds(f: (logOdds: number) => number): number {
  let width = 4;
  while (width < 512 && !(f(-width) < 0 && f(width) > 0)) width *= 2;
  return findRoot(f, -width, width);
}
