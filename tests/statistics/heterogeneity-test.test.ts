import { expect, test } from 'vitest';
import { heterogeneityTest } from '../../lib/statistics/index.ts';

/** Cases and rest among vaccinated, cases and rest among others: 13 trials, Colditz et al. 1994, JAMA 271:698. */
const trials = [
  [4, 119, 11, 128],
  [6, 300, 29, 274],
  [3, 228, 11, 209],
  [62, 13536, 248, 12619],
  [33, 5036, 47, 5761],
  [180, 1361, 372, 1079],
  [8, 2537, 10, 619],
  [505, 87886, 499, 87892],
  [29, 7470, 45, 7232],
  [17, 1699, 65, 1600],
  [186, 50448, 141, 27197],
  [5, 2493, 3, 2338],
  [27, 16886, 29, 17825],
] as [number, number, number, number][];

test('Q of 13 vaccine trials is 152.233 on 12 degrees of freedom (Viechtbauer 2010; digits by R 4.2)', () => {
  const found = heterogeneityTest({
    value: trials.map(([a, b, c, d]) => Math.log(a / (a + b) / (c / (c + d)))),
    variance: trials.map(([a, b, c, d]) => 1 / a - 1 / (a + b) + 1 / c - 1 / (c + d)),
  });
  expect(found?.statistic).toBeCloseTo(152.233008082, 8);
  expect(found?.degreesOfFreedom).toBe(12);
  expect(found?.mean).toBeCloseTo(-0.430285163654, 11);
  expect((found?.pValue ?? NaN) / 1.99676459085e-26).toBeCloseTo(1, 8);
});

test('one alone differs from nothing', () => {
  expect(heterogeneityTest({ value: [0.5], variance: [0.1] })).toBeNull();
});

test('bad input is named with its row', () => {
  expect(() => heterogeneityTest({ value: [0, 1], variance: [1, 0] })).toThrow('variance[1]: 0 is not above 0');
  expect(() => heterogeneityTest({ value: [0, NaN], variance: [1, 1] })).toThrow('value[1]: NaN is not a finite');
});
