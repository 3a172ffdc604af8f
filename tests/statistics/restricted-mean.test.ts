import { describe, expect, it } from 'vitest';
import {
  kaplanMeier,
  restrictedMean,
  restrictedMeanDifference,
  StatisticsError,
  type SurvivalCurve,
  type SurvivalData,
} from '../../lib/statistics/index.ts';
import { check, loadCase } from '../reference/reference.ts';
import { KAPLAN_MEIER_CASES } from './kaplan-meier-cases.ts';

describe('restrictedMean against R survival 3.5-3 survmean', () => {
  it.each(KAPLAN_MEIER_CASES)('$id', ({ id, data, options }) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'restrictedMean', source: `${id}: ${source}` };
    const curves = kaplanMeier(data, options);
    for (const want of expected) {
      const curve = curves.find(({ group }) => group === want.group.replace(/^.*=/, '')) as SurvivalCurve;
      const { horizon, estimate, se } = want.rmean;
      const got = restrictedMean(curve, horizon, { beyond: 'hold' });
      check(about, got.value as number, estimate, 1e-9);
      check(about, got.standardError as number, se, 1e-9);
    }
  });
});

/** Lives of 30 vehicles, two wheel ends each, some entering late; closed arithmetic, no chance. */
const lives = (() => {
  const rows = Array.from({ length: 60 }, (_, row) => row);
  const entry = rows.map((row) => (row % 5 === 0 ? (row * 7) % 11 : 0));
  return {
    entry,
    exit: rows.map((row) => (entry[row] as number) + 1 + ((row * 37) % 23)),
    event: rows.map((row) => (row % 3 === 0 ? 0 : 1)),
    weight: rows.map((row) => 0.5 + (row % 4) / 2),
    group: rows.map((row) => (row % 2 ? 'right' : 'left')),
    cluster: rows.map((row) => row >> 1),
  };
})();

/** Infinitesimal jackknife by brute force: each cluster's derivative by a central difference in its weights. */
function bruteForce(data: SurvivalData & { weight: number[]; cluster: number[] }, of: (data: SurvivalData) => number) {
  const step = 1e-4;
  const pulls = [...new Set(data.cluster)].map((cluster) => {
    const moved = (by: number) => data.weight.map((w, row) => (data.cluster[row] === cluster ? w * (1 + by) : w));
    return (of({ ...data, weight: moved(step) }) - of({ ...data, weight: moved(-step) })) / (2 * step);
  });
  return Math.sqrt(pulls.reduce((sum, pull) => sum + pull * pull, 0));
}

describe('the robust error', () => {
  const curves = (data: SurvivalData) => kaplanMeier(data) as [SurvivalCurve, SurvivalCurve];

  it('of a restricted mean is the derivative in the weights, summed by cluster', () => {
    const [left] = curves(lives);
    const got = restrictedMean(left, 14);
    const want = bruteForce(lives, (data) => restrictedMean(curves(data)[0], 14).value as number);
    expect(got.robustStandardError).toBeCloseTo(want, 7);
    expect(got.robustUpper).toBeCloseTo(got.value! + 1.9599639845400545 * want, 6);
  });

  it('of a difference lets a cluster with rows in both groups cancel', () => {
    const [left, right] = curves(lives);
    const got = restrictedMeanDifference(left, right, 14);
    const want = bruteForce(lives, (data) => {
      const [one, two] = curves(data);
      return (restrictedMean(one, 14).value as number) - (restrictedMean(two, 14).value as number);
    });
    expect(got.robustStandardError).toBeCloseTo(want, 7);
    expect(got.value).toBeCloseTo(restrictedMean(left, 14).value! - restrictedMean(right, 14).value!, 12);
  });

  it('is left out when the curve was cloned or made without clusters', () => {
    const [left] = curves(lives);
    expect(restrictedMean(structuredClone(left), 14)).not.toHaveProperty('robustStandardError');
  });
});

describe('restrictedMean by hand', () => {
  const [curve] = kaplanMeier({ exit: [1, 2, 3, 4], event: [1, 0, 1, 1] }) as [SurvivalCurve];

  it('is the area under the steps with Greenwood error', () => {
    // S: 1 on [0,1), 3/4 on [1,3), 3/8 on [3,3.5]; tails from 1: 1.6875, from 3: 0.1875.
    const got = restrictedMean(curve, 3.5);
    expect(got.value).toBeCloseTo(1 + 1.5 + 0.1875, 14);
    expect(got.standardError).toBeCloseTo(Math.sqrt(1.6875 ** 2 / (4 * 3) + 0.1875 ** 2 / (2 * 1)), 14);
    expect(got.upper).toBe(3.5);
    expect(restrictedMean(curve, 0.5)).toMatchObject({ value: 0.5, standardError: 0, lower: 0.5, upper: 0.5 });
  });

  it('of a group against itself differs by nothing, with √2 of the error', () => {
    const one = restrictedMean(curve, 3.5);
    const got = restrictedMeanDifference(curve, curve, 3.5, { level: 0.9 });
    expect(got.value).toBe(0);
    expect(got.standardError).toBeCloseTo(Math.SQRT2 * one.standardError!, 14);
    // 1.6448536269514722 is the 95 % point of the normal distribution.
    expect(got.upper).toBeCloseTo(1.6448536269514722 * got.standardError!, 12);
  });

  it('refuses a horizon beyond the lives unless told to hold the last value', () => {
    const [short] = kaplanMeier({ exit: [1, 2], event: [1, 0] });
    const got = restrictedMean(short!, 5);
    expect(got).toMatchObject({ value: null, standardError: null, lower: null, upper: null, horizon: 5 });
    expect(got.reason).toContain('ends at 2');
    expect(restrictedMean(short!, 5, { beyond: 'hold' }).value).toBe(1 + 4 * 0.5);
    expect(restrictedMean(curve, 5).value).toBeCloseTo(1 + 1.5 + 0.375, 14);
    expect(restrictedMeanDifference(curve, short!, 5).value).toBeNull();
    const [empty] = kaplanMeier({ exit: [], event: [] });
    expect(restrictedMean(empty!, 5)).toMatchObject({ value: null, reason: 'no lives in group all' });
  });

  it.each([0, -1, NaN, Infinity])('refuses the horizon %s', (horizon) => {
    expect(() => restrictedMean(curve, horizon)).toThrow(StatisticsError);
  });
});
