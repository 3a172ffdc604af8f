import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import type { Interval } from './interval.ts';
import { findRoot } from './numeric/find-root.ts';
import { logBinomialMass } from './numeric/log-binomial-mass.ts';

export interface ExactRateRatio {
  /** Two-sided p as the sum of all outcomes no likelier than the one seen; may disagree with the limits. */
  readonly pValueByLikelihood: number;
  /** One-sided: chance of a ratio as low, or as high, as seen if the tested ratio were true. */
  readonly pLess: number;
  readonly pGreater: number;
  /** Limits and p-value counting the outcome seen by half: less conservative than the exact ones. */
  readonly midP: Interval & { readonly pValue: number };
}

type ExactResult = Interval & ExactRateRatio & { readonly pValue: number | null; readonly reason: string | null };

/**
 * Inference on the ratio of two Poisson rates given the sum of their counts, which is then binomial with odds
 * ratio · t₁/t₀ (Breslow & Day vol. II §3.4; Przyborowski & Wilenski 1940).
 */
export function exactRateRatio(
  events: readonly [number, number],
  exposure: readonly [number, number],
  level: number,
  nullRatio: number,
): ExactResult {
  const [a, b] = events;
  const [t1, t0] = exposure;
  if (t1 === 0 || t0 === 0) return unknown(`no exposure in ${t1 === 0 ? 'the compared' : 'the reference'} group`);
  if (a + b === 0) return unknown('no events');
  const tail = (1 - level) / 2;
  const toRatio = (odds: number) => odds * (t0 / t1);
  const value = b > 0 ? (a / t1) * (t0 / b) : null;
  const odds = (nullRatio * t1) / t0;
  const [pLess, pGreater] = tails(a, b, odds);
  const mass = Math.exp(logBinomialMass(a, b, odds));
  const smaller = Math.min(pLess, pGreater);
  const midP = midPLimits(a, b, tail);
  return {
    value,
    lower: a > 0 ? toRatio(oddsQuantile(tail, a, b + 1)) : 0,
    upper: b > 0 ? toRatio(oddsQuantile(1 - tail, a + 1, b)) : null,
    pValue: Math.min(1, 2 * smaller),
    pValueByLikelihood: noLikelier(a, a + b, odds),
    pLess,
    pGreater,
    midP: {
      value,
      lower: toRatio(midP[0]),
      upper: midP[1] === null ? null : toRatio(midP[1]),
      pValue: Math.min(1, 2 * smaller - mass),
    },
    reason: value === null ? 'no events in the reference group' : null,
  };
}

function unknown(reason: string): ExactResult {
  const nothing = { value: null, lower: 0, upper: null };
  const midP = { ...nothing, pValue: 1 };
  return { ...nothing, pValue: null, pValueByLikelihood: 1, pLess: 1, pGreater: 1, midP, reason };
}

/** P(X ≤ a) and P(X ≥ a) for X binomial of a+b with odds of success `odds`, without loss when one is tiny. */
function tails(a: number, b: number, odds: number): [number, number] {
  return [b === 0 ? 1 : betaCdf(1 / (1 + odds), b, a + 1), a === 0 ? 1 : betaCdf(odds / (1 + odds), a, b + 1)];
}

/** p/(1−p) at a quantile of the beta distribution, from whichever end keeps its digits. */
function oddsQuantile(probability: number, alpha: number, beta: number): number {
  const p = betaQuantile(probability, alpha, beta);
  if (p < 0.5) return p / (1 - p);
  const q = betaQuantile(1 - probability, beta, alpha);
  return (1 - q) / q;
}

/** Odds at which each tail, the outcome seen counted by half, is `tail`; a null upper end is unbounded. */
function midPLimits(a: number, b: number, tail: number): [number, number | null] {
  const excess = (side: 0 | 1) => (logOdds: number) => {
    const odds = Math.exp(logOdds);
    return tails(a, b, odds)[side] - Math.exp(logBinomialMass(a, b, odds)) / 2 - tail;
  };
  // At odds of e^±60 either tail is 0, 1/2 or 1 to the last digit for any count that fits in memory.
  const lower = a > 0 ? Math.exp(findRoot(excess(1), -60, 60)) : 0;
  return [lower, b > 0 ? Math.exp(findRoot(excess(0), -60, 60)) : null];
}

/** Sum of the binomial masses no greater than that of `a`; a slack of 1e-7 absorbs rounding, as R's binom.test does. */
function noLikelier(a: number, total: number, odds: number): number {
  const logMass = (count: number) => logBinomialMass(count, total - count, odds);
  const mean = (total * odds) / (1 + odds);
  if (a === mean) return 1;
  const limit = logMass(a) + 1e-7;
  const low = a < mean;
  // Beyond the mode the mass falls steadily: bisect for the first outcome on the far side that counts.
  let [near, far] = low ? [Math.ceil(mean), total + 1] : [Math.floor(mean), -1];
  if (logMass(near) <= limit) far = near;
  while (Math.abs(far - near) > 1) {
    const middle = Math.trunc((near + far) / 2);
    if (logMass(middle) <= limit) far = middle;
    else near = middle;
  }
  const here = tails(a, total - a, odds)[low ? 0 : 1];
  const there = far < 0 || far > total ? 0 : tails(far, total - far, odds)[low ? 1 : 0];
  return Math.min(1, here + there);
}
