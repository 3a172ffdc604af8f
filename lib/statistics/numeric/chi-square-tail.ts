import { upperGamma } from './incomplete-gamma.ts';

/** P(χ² > statistic), exact far into the tail where one minus the distribution function would be 0. */
export const chiSquareTail = (statistic: number, degreesOfFreedom: number): number =>
  statistic <= 0 ? 1 : upperGamma(degreesOfFreedom / 2, statistic / 2);
