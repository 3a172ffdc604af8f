import gammainc from '@stdlib/math-base-special-gammainc';

/** P(χ² > statistic), kept to full relative precision far into the tail; 1 without degrees of freedom. */
export const chiSquareTail = (statistic: number, degreesOfFreedom: number): number =>
  degreesOfFreedom === 0 || statistic <= 0 ? 1 : gammainc(statistic / 2, degreesOfFreedom / 2, true, true);
