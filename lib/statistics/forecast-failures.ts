import { toLevel } from './interval.ts';
import { LIFE_MODELS, type LifeModel } from './life-model.ts';
import { drawBinomial } from './numeric/draw-binomial.ts';
import { sortOrder } from './numeric/sort-order.ts';
import {
  drawParameters,
  drawQuantile,
  reasonAgainstFit,
  type DrawOptions,
  type FittedLife,
} from './parameter-draws.ts';
import { StatisticsError } from './statistics-error.ts';
import { toNumbers, type NumberColumn } from './survival-data.ts';

export interface RunningUnits {
  /** Age now of each unit still running, in the unit of the fit. */
  readonly age: NumberColumn;
  /** How far ahead each will run; in place of the option `ahead` where units differ. */
  readonly ahead?: NumberColumn;
  /** Whole numbers of like units a row stands for, default 1. */
  readonly count?: NumberColumn;
}

export interface ForecastOptions extends DrawOptions {
  /** How far ahead every unit will run, in the unit of the fit. */
  readonly ahead?: number;
  readonly level?: number;
  /** Ages are drawn for in at most this many classes, default 500: within one they hardly differ, and the forecast itself is not classed. */
  readonly classes?: number;
}

export interface Forecast {
  /** Why there is no forecast; the numbers are null then. */
  readonly reason: string | null;
  /** Failures expected among these units, with the confidence limits that the fit's uncertainty gives. */
  readonly expected: { readonly value: number | null; readonly lower: number | null; readonly upper: number | null };
  /** Whole numbers between which the failures will lie, fit's uncertainty and chance together. */
  readonly failures: { readonly lower: number | null; readonly upper: number | null };
  /** Chance of each row's unit to fail while it runs ahead, given that it runs now. */
  readonly probability: Float64Array;
  /** Failures of each draw, in the order of the draws of the parameters; none where there is no forecast. */
  readonly drawn: Float64Array;
  readonly units: number;
  readonly level: number;
}

/**
 * First failures to come among units still running, each given its age: unit i fails ahead with
 * probability 1 − S(aᵢ + aheadᵢ) / S(aᵢ). Their number is a sum of unequal chances (Poisson-binomial);
 * the prediction interval adds the fit's uncertainty by drawing the parameters and then the failures.
 * Units that fail and are replaced may fail again: those later failures are not counted. Units are
 * taken as independent given the fit.
 *
 * @param fit a result of fitLife (with clusters the robust covariance is used).
 * @throws StatisticsError on bad columns, no units, or `ahead` neither given once nor by unit.
 * Source: Meeker & Escobar (1998), Statistical Methods for Reliability Data, ch. 12 (§12.7.2 staggered
 * entry, §12.5–12.6 intervals); Hong, Meeker & McCalley 2009, Ann. Appl. Stat. 3:857. Outside check:
 * exponential and one-unit cases in closed form, coverage by simulation.
 */
export function forecastFailures(fit: FittedLife, data: RunningUnits, options: ForecastOptions): Forecast {
  const level = toLevel(options.level);
  const { age, ahead, count } = toUnits(data, options.ahead);
  const model = LIFE_MODELS[fit.distribution];
  const reason = reasonAgainstFit(fit);
  const probability = Float64Array.from(age, (start, row) =>
    chance(model, fit.working.values, start, ahead[row] as number),
  );
  const units = count.reduce((sum, value) => sum + value, 0);
  if (reason !== null) {
    const none = { value: null, lower: null, upper: null };
    const probability = new Float64Array(age.length);
    return { reason, expected: none, failures: none, probability, drawn: new Float64Array(0), units, level };
  }
  const chanceOf = (start: number, span: number) => chance(model, fit.working.values, start, span);
  const classes = classify({ age, ahead, count }, probability, chanceOf, options.classes ?? 500);
  const draws = drawParameters(fit, options);
  const means = new Float64Array(draws.length);
  const totals = new Float64Array(draws.length);
  draws.forEach((working, draw) => {
    for (const { start, span, size, scale } of classes) {
      const p = Math.min(1, scale * chance(model, working, start, span));
      means[draw] = (means[draw] as number) + size * p;
      totals[draw] = (totals[draw] as number) + drawBinomial(size, p, options.random);
    }
  });
  const drawn = totals.slice();
  means.sort();
  const tail = (1 - level) / 2;
  return {
    reason,
    expected: {
      value: probability.reduce((sum, p, row) => sum + p * (count[row] as number), 0),
      lower: drawQuantile(means, tail),
      upper: drawQuantile(means, 1 - tail),
    },
    failures: drawnLimits(totals, level),
    probability,
    drawn,
    units,
    level,
  };
}

/**
 * Values with at most half of 1 − level of the draws beyond them on either side; sorts the draws in place.
 *
 * @throws StatisticsError where there are no draws.
 * Source: Meeker & Escobar (1998) §12.6. Outside check: binomial limits of R, in forecastFailures.
 */
export function drawnLimits(draws: Float64Array, level: number): { readonly lower: number; readonly upper: number } {
  if (draws.length === 0) throw new StatisticsError('draws', 'has no rows');
  const tail = (1 - level) / 2;
  draws.sort();
  return {
    lower: draws[Math.floor(tail * draws.length)] as number,
    upper: draws[Math.ceil((1 - tail) * draws.length) - 1] as number,
  };
}

function toUnits({ age, ahead, count }: RunningUnits, forAll: number | undefined) {
  const rows = age.length;
  if (rows === 0) throw new StatisticsError('age', 'has no rows');
  if ((ahead === undefined) === (forAll === undefined))
    throw new StatisticsError('ahead', 'is wanted once, for all units in the options or by unit in the data');
  const units = {
    age: toNumbers('age', age, rows),
    ahead: ahead ? toNumbers('ahead', ahead, rows) : new Float64Array(rows).fill(forAll as number),
    count: count ? toNumbers('count', count, rows) : new Float64Array(rows).fill(1),
  };
  for (let row = 0; row < rows; row++) {
    const [start, span, size] = [units.age[row] as number, units.ahead[row] as number, units.count[row] as number];
    if (start < 0) throw new StatisticsError('age', 'is negative', row);
    if (!(span >= 0 && span < Infinity))
      throw new StatisticsError('ahead', `${span} is not a distance from zero on`, row);
    if (!Number.isInteger(size) || size < 0) throw new StatisticsError('count', `${size} is not a whole number`, row);
  }
  return units;
}

/** 1 − S(start + span) / S(start), exact where it is tiny. */
function chance(model: LifeModel, working: ArrayLike<number>, start: number, span: number): number {
  const now = start === 0 ? 0 : model.logSurvival(start, working);
  if (span === 0 || now === -Infinity) return span === 0 ? 0 : 1;
  return -Math.expm1(model.logSurvival(start + span, working) - now);
}

interface UnitClass {
  readonly start: number;
  readonly span: number;
  readonly size: number;
  /** Mean chance of its units under the fit over the chance at its mean age and span: 1 where they are alike. */
  readonly scale: number;
}

/**
 * Units of nearly the same age, as many to a class, each at the mean age and span. By age, not by chance: young units
 * that run far and old ones that run a little may have the same chance, and their mean has a higher one.
 */
function classify(
  { age, ahead, count }: Record<'age' | 'ahead' | 'count', Float64Array>,
  probability: Float64Array,
  chanceOf: (start: number, span: number) => number,
  most: number,
): UnitClass[] {
  const rows = age.length;
  if (rows <= most)
    return Array.from(age, (start, row) => ({
      ...{ start, span: ahead[row] as number, size: count[row] as number, scale: 1 },
    }));
  const order = sortOrder(age);
  const classes: UnitClass[] = [];
  for (let from = 0; from < rows;) {
    const to = Math.min(rows, Math.max(from + 1, Math.ceil(((classes.length + 1) * rows) / most)));
    let [start, span, expected, size] = [0, 0, 0, 0];
    for (let place = from; place < to; place++) {
      const row = order[place] as number;
      const n = count[row] as number;
      start += n * (age[row] as number);
      span += n * (ahead[row] as number);
      expected += n * (probability[row] as number);
      size += n;
    }
    const own = size > 0 ? chanceOf(start / size, span / size) : 0;
    if (size > 0)
      classes.push({ start: start / size, span: span / size, size, scale: own > 0 ? expected / size / own : 1 });
    from = to;
  }
  return classes;
}
