import {
  fractionLimits,
  fractionOf,
  type AttributableFraction,
  type AttributableOptions,
} from './attributable-fraction.ts';
import { sumOverFailures } from './attributable-fraction-sums.ts';
import { designMatrix, designTable, type DesignMatrix } from './design-matrix.ts';
import { LEAST_CLUSTERS, subMatrix } from './regression-result.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCodes, toNumbers, type CategoryColumn, type Covariates, type NumberColumn } from './survival-data.ts';

/** The rows that ratios were fitted to. */
export interface FittedFailures {
  /** Failures of each row: 0 or 1, or a count. */
  readonly event: NumberColumn;
  readonly weight?: NumberColumn;
  readonly cluster?: CategoryColumn;
  readonly covariates: Covariates;
}

/** What is needed of a fit: any `coxRegression` or `poissonRegression`. */
export interface FittedRatios {
  readonly terms: readonly string[];
  readonly coefficients: Float64Array;
  readonly covariance: Float64Array;
}

export interface AttributableOfFitOptions extends AttributableOptions {
  /** Covariates taken away together: set to zero, or to their reference level. */
  readonly exposures: readonly string[];
  /** Change of each coefficient owed to each row, row-major rows × terms: `coxResiduals(…).dfbeta`. Gives robust limits. */
  readonly influence?: Float64Array;
  /** In its place for a fit of the family `poisson`: events expected of each row, `fit.expected(data)`. */
  readonly expected?: NumberColumn;
}

export interface AttributableFractionOfFit extends AttributableFraction {
  /**
   * With `influence` or `expected`: limits that let the failures of a cluster (or row) go together, the ones to use.
   * Null without, and from fewer than two clusters.
   */
  readonly robust: {
    readonly lower: number;
    readonly upper: number;
    readonly standardError: number;
    readonly clusters: number;
  } | null;
}

/**
 * Share of the failures in excess of what a fit expects without one or several exposures:
 * 1 − mean over the failures of 1 / ratio(x), ratio(x) being what the exposures of that failure
 * multiply its hazard by. For one yes/no exposure this is p · (1 − 1/ratio), `attributableFraction`.
 * It speaks of the failures on record; the share by a horizon, with censoring and late entry set
 * right, is `excessShare`.
 *
 * The model-based variance takes the covariance of failures and coefficients from the likelihood
 * equations (see `attributableFraction`), 1/ratio(x) regressed on the terms among the failures.
 *
 * @throws StatisticsError for bad columns, an exposure that is no covariate or has no term in the fit, a term without
 *   a column, clusters without `influence` or `expected`.
 * Source: Bruzzi et al. 1985, Am. J. Epidemiology 122:904; Graubard & Fears 2005, Biometrics 61:847 (influence,
 * clusters). Outside check: reference cases paf-colon-cox, paf-nickel-poisson, 1e-6; simulation.
 */
export function attributableFractionOfFit(
  data: FittedFailures,
  fit: FittedRatios,
  options: AttributableOfFitOptions,
): AttributableFractionOfFit {
  const rows = data.event.length;
  const event = toNumbers('event', data.event, rows);
  const weight = data.weight ? toNumbers('weight', data.weight, rows) : null;
  const count = weight ? event.map((value, row) => value * (weight[row] as number)) : event;
  const design = designMatrix(data.covariates, rows);
  const columns = termColumns(design, fit.terms);
  const exposed = exposureTerms(design, columns, options.exposures);
  const failed = Int32Array.from(event.keys()).filter((row) => (count[row] as number) > 0);
  const sums = sumOverFailures(
    Float64Array.from(failed, (row) => count[row] as number),
    tableOfTerms(design, columns, failed),
    fit.coefficients,
    exposed,
  );
  const fraction = fractionOf({ ...sums, covariance: subMatrix(fit.covariance, fit.terms.length, exposed) }, options);
  const moved = movedByRow(fit, options, { event, weight, design, columns }, sums.slope, exposed);
  if (data.cluster && !moved) throw new StatisticsError('influence', 'is needed for clusters');
  if (!moved || fraction.value === null) return { ...fraction, robust: null };
  failed.forEach((row, index) => {
    const away = (sums.inverse[index] as number) - sums.complement;
    moved[row] = (moved[row] as number) + ((count[row] as number) * away) / sums.cases;
  });
  const byCluster = data.cluster ? sumByCluster(moved, data.cluster) : moved;
  if (byCluster.length < LEAST_CLUSTERS) return { ...fraction, robust: null };
  const standardError = Math.sqrt(byCluster.reduce((sum, value) => sum + value * value, 0));
  const limits = fractionLimits(sums.complement, standardError, fraction);
  return { ...fraction, robust: { ...limits, standardError, clusters: byCluster.length } };
}

/** Column of the design each term of the fit stands for, −1 for the intercept. */
function termColumns(design: DesignMatrix, terms: readonly string[]): number[] {
  return terms.map((term) => {
    const column = term === '(intercept)' ? -1 : design.terms.indexOf(term);
    if (column < 0 && term !== '(intercept)')
      throw new StatisticsError('fit', `has the term ${term}, which the data lack`);
    return column;
  });
}

/** Terms that belong to the covariates taken away. */
function exposureTerms(design: DesignMatrix, columns: readonly number[], exposures: readonly string[]): number[] {
  if (exposures.length === 0) throw new StatisticsError('exposures', 'are none');
  return exposures.flatMap((name) => {
    const source = design.sources.findIndex((one) => one.name === name);
    const terms = [...columns.keys()].filter((j) => design.sourceOf[columns[j] as number] === source);
    if (source < 0) throw new StatisticsError('exposures', `name ${name}, which is no covariate of the data`);
    if (terms.length === 0) throw new StatisticsError('exposures', `name ${name}, of which the fit has no term`);
    return terms;
  });
}

/** Design rows in the order of the fit's terms, row-major. */
function tableOfTerms(design: DesignMatrix, columns: readonly number[], rows: ArrayLike<number>): Float64Array {
  const whole = designTable(design, rows);
  const [from, width] = [design.terms.length, columns.length];
  const table = new Float64Array(rows.length * width);
  for (let row = 0; row < rows.length; row++)
    for (let j = 0; j < width; j++) {
      const column = columns[j] as number;
      table[row * width + j] = column < 0 ? 1 : (whole[row * from + column] as number);
    }
  return table;
}

interface CountedRows {
  readonly event: Float64Array;
  readonly weight: Float64Array | null;
  readonly design: DesignMatrix;
  readonly columns: readonly number[];
}

/** How each row moves the complement through the coefficients; null when nothing tells. */
function movedByRow(
  fit: FittedRatios,
  { influence, expected }: AttributableOfFitOptions,
  { event, weight, design, columns }: CountedRows,
  slope: Float64Array,
  exposed: readonly number[],
): Float64Array | null {
  const [rows, width] = [event.length, columns.length];
  if (influence) {
    if (influence.length !== rows * width)
      throw new StatisticsError('influence', `has ${influence.length} values where ${rows * width} are wanted`);
    return event.map((_, row) =>
      exposed.reduce((sum, j, k) => sum + (slope[k] as number) * (influence[row * width + j] as number), 0),
    );
  }
  if (!expected) return null;
  // A Poisson row moves the coefficients by covariance · x · (events − expected) (McCullagh & Nelder 1989 §2.5).
  const mean = toNumbers('expected', expected, rows);
  const table = tableOfTerms(design, columns, Int32Array.from(event.keys()));
  const along = fit.coefficients.map((_, j) =>
    exposed.reduce((sum, k, at) => sum + (slope[at] as number) * (fit.covariance[k * width + j] as number), 0),
  );
  return event.map((value, row) => {
    let move = 0;
    for (let j = 0; j < width; j++) move += (along[j] as number) * (table[row * width + j] as number);
    return move * (weight ? (weight[row] as number) : 1) * (value - (mean[row] as number));
  });
}

/** Sums over the clusters that occur. */
function sumByCluster(moved: Float64Array, column: CategoryColumn): Float64Array {
  const { count, codes } = toCodes('cluster', column, moved.length);
  const sums = new Float64Array(count);
  const occurs = new Uint8Array(count);
  codes.forEach((code, row) => {
    sums[code] = (sums[code] as number) + (moved[row] as number);
    occurs[code] = 1;
  });
  return sums.filter((_, code) => occurs[code] === 1);
}
