import gammaln from '@stdlib/math-base-special-gammaln';

/** Log probability of `a` successes and `b` failures at odds of success above zero. */
export function logBinomialMass(a: number, b: number, odds: number): number {
  const ways = gammaln(a + b + 1) - gammaln(a + 1) - gammaln(b + 1);
  const logOdds = Math.log(odds);
  // log p = −log(1 + 1/odds), log q = −log(1 + odds): exact at either end.
  return ways - a * Math.log1p(Math.exp(-logOdds)) - b * Math.log1p(odds);
}
