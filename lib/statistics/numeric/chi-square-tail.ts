import gammainc from '@stdlib/math-base-special-gammainc';

/** P(χ² > statistic), exact far into the tail where one minus the distribution function would be 0. */
export const chiSquareTail = (statistic: number, degreesOfFreedom: number): number =>
  statistic <= 0 ? 1 : gammainc(statistic / 2, degreesOfFreedom / 2, true, true);
