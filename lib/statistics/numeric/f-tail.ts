import betaCdf from '@stdlib/stats-base-dists-beta-cdf';

/** P(F > statistic) on (numerator, denominator) degrees of freedom. */
export const fTail = (statistic: number, numerator: number, denominator: number): number =>
  statistic <= 0 ? 1 : betaCdf(denominator / (denominator + numerator * statistic), denominator / 2, numerator / 2);
