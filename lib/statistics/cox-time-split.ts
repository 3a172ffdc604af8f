import { twoSidedQuantile } from './confidence-limits.ts';
import { coxRegression, type CoxOptions, type CoxRegression } from './cox-regression.ts';
import { termOfLevel } from './design-matrix.ts';
import { toLevel } from './interval.ts';
import { chiSquareTest } from './regression-result.ts';
import { covariateByPiece, splitTime, type SplitTime } from './split-time.ts';
import { StatisticsError } from './statistics-error.ts';
import type { SurvivalData } from './survival-data.ts';

export interface CoxTimeSplitOptions extends Omit<CoxOptions, 'offset' | 'initial'> {
  /** The covariate whose ratio may change. */
  readonly covariate: string;
  /** When it may: events up to and with this time are early. Not for data that `splitTime` has already cut there. */
  readonly cut?: number;
}

/** One ratio with its limits. Null could not be estimated: no information on that side of the cut. */
export interface SplitRatio {
  readonly ratio: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** With `cluster`. */
  readonly robustLower?: number | null;
  readonly robustUpper?: number | null;
}

export interface SplitTerm {
  /** The covariate, or `name=level`. */
  readonly term: string;
  readonly early: SplitRatio;
  readonly later: SplitRatio;
  /** Later over early. */
  readonly change: SplitRatio;
  /** Wald test of no change, on the robust errors where clusters are given. Null where a side is missing or infinite. */
  readonly pValue: number | null;
}

export interface CoxTimeSplit {
  readonly cut: number;
  /** One entry a term of the covariate: itself, or each level but the reference. */
  readonly terms: readonly SplitTerm[];
  /** The whole fit, covariance and all, in which the covariate stands as `<name>, early` and `<name>, later`. */
  readonly fit: CoxRegression;
}

/**
 * A hazard ratio before and after a cut in time, in one fit: every row is split at the cut and the
 * covariate has a coefficient in each part. A later ratio below one beside an early one above it may
 * be depletion of the weak, not protection.
 *
 * Many covariates of the same lives: cut them once by `splitTime(data, [cut])`, take `coxRiskSets`
 * of the result, and give both to each call.
 *
 * @throws StatisticsError as `coxRegression`, and for a covariate that is not there, no single cut, or a cut ≤ 0.
 * Source: Therneau & Grambsch 2000 §6.5. Outside check: R survival's survSplit and coxph (in the test), 1e-7.
 */
export function coxTimeSplit(data: SurvivalData | SplitTime, options: CoxTimeSplitOptions): CoxTimeSplit {
  const { covariate, cut, ...fitOptions } = options;
  const split = splitOnce(data, cut, options.riskSets !== undefined);
  const column = split.covariates?.[covariate];
  if (!column) throw new StatisticsError('covariate', `${covariate} is not among the covariates`);
  const names = [`${covariate}, early`, `${covariate}, later`] as const;
  const { [covariate]: _, ...others } = split.covariates ?? {};
  // Behind the others: where it is a combination of them, it is the one that cannot be told.
  const covariates = { ...others, ...covariateByPiece(column, split, names) };
  const fit = coxRegression({ ...split, covariates }, fitOptions);
  const z = twoSidedQuantile(toLevel(options.level));
  const levels = 'levels' in column ? column.levels.slice(1) : [null];
  return {
    cut: split.cuts[0] as number,
    terms: levels.map((level) => {
      const termOf = (name: string) => (level === null ? name : termOfLevel(name, level));
      const [early, later] = [fit.terms.indexOf(termOf(names[0])), fit.terms.indexOf(termOf(names[1]))];
      const sides = { early: sideOf(fit, early), later: sideOf(fit, later) };
      return { term: termOf(covariate), ...sides, ...changeOf(fit, early, later, z) };
    }),
    fit,
  };
}

function splitOnce(data: SurvivalData | SplitTime, cut: number | undefined, shared: boolean): SplitTime {
  if (!('piece' in data)) {
    if (cut === undefined) throw new StatisticsError('cut', 'is missing');
    if (shared) throw new StatisticsError('riskSets', 'are of no use to rows that are yet to be split');
    return splitTime(data, [cut]);
  }
  if (cut !== undefined) throw new StatisticsError('cut', `is given (${cut}) for rows that are already split`);
  if (data.cuts.length !== 1) throw new StatisticsError('cut', `${data.cuts.length} cuts where one is wanted`);
  return data;
}

/** Whether the data say anything of a term: it has an estimate, or is infinite. */
const isKnown = ({ coefficients, standardErrors }: CoxRegression, term: number): boolean =>
  term >= 0 && (Number.isFinite(standardErrors[term]) || !Number.isFinite(coefficients[term]));

function sideOf(fit: CoxRegression, term: number): SplitRatio {
  const at = (values: Float64Array): number | null => (isKnown(fit, term) ? (values[term] as number) : null);
  return {
    ratio: at(fit.ratio),
    lower: at(fit.lower),
    upper: at(fit.upper),
    ...(fit.robustLower && fit.robustUpper
      ? { robustLower: at(fit.robustLower), robustUpper: at(fit.robustUpper) }
      : {}),
  };
}

function changeOf(fit: CoxRegression, early: number, later: number, z: number): Pick<SplitTerm, 'change' | 'pValue'> {
  const robust = fit.robustCovariance;
  const log = (fit.coefficients[later] ?? NaN) - (fit.coefficients[early] ?? NaN);
  if (!Number.isFinite(log) || !isKnown(fit, early) || !isKnown(fit, later) || !fit.converged) {
    const none = { ratio: null, lower: null, upper: null };
    return { change: robust ? { ...none, robustLower: null, robustUpper: null } : none, pValue: null };
  }
  const errorOf = (covariance: Float64Array) => differenceError(covariance, fit.terms.length, early, later);
  const limit = (covariance: Float64Array, side: -1 | 1) => Math.exp(log + side * z * errorOf(covariance));
  const error = errorOf(robust ?? fit.covariance);
  return {
    change: {
      ratio: Math.exp(log),
      lower: limit(fit.covariance, -1),
      upper: limit(fit.covariance, 1),
      ...(robust ? { robustLower: limit(robust, -1), robustUpper: limit(robust, 1) } : {}),
    },
    pValue: error > 0 ? chiSquareTest((log / error) ** 2, 1).pValue : null,
  };
}

/** Standard error of the difference of two coefficients. */
function differenceError(covariance: Float64Array, width: number, a: number, b: number): number {
  const at = (row: number, column: number) => covariance[row * width + column] as number;
  return Math.sqrt(Math.max(0, at(a, a) + at(b, b) - 2 * at(a, b)));
}
