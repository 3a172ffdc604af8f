import { coxAtFit, type FittedCox } from './cox-at-fit.ts';
import { checkSurvival } from './cox-data.ts';
import { coxRegression } from './cox-regression.ts';
import { expectedAt } from './cox-residuals.ts';
import type { RiskSets } from './cox-risk-sets.ts';
import { twoSidedQuantile } from './confidence-limits.ts';
import { toLevel } from './interval.ts';
import { addFitInfluence, countInfluence, type InfluenceOf } from './observed-expected-influence.ts';
import { observedExpectedLimits, type ObservedExpectedLimits } from './observed-expected-limits.ts';
import type { RegressionWarning } from './regression-result.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, type Category, type SurvivalData } from './survival-data.ts';
import { takeRows } from './take-rows.ts';

/** Every row counts once. */
export type ObservedExpectedData = Omit<SurvivalData, 'weight'>;

export interface ObservedExpectedOptions {
  readonly level?: number;
  readonly riskSets?: RiskSets;
  /** False leaves the robust limits and the influence out, which take most of the time. */
  readonly influence?: boolean;
}

/** Events seen and expected of each group; columns are one a group. */
export interface ObservedExpected extends ObservedExpectedLimits {
  readonly levels: readonly string[];
  readonly observed: Float64Array;
  /** Adds up to the observed over all groups. */
  readonly expected: Float64Array;
  /** What the error of baseline and coefficients leaves in the expected, clusters moving as one; null without events. */
  readonly expectedLower: readonly (number | null)[];
  readonly expectedUpper: readonly (number | null)[];
  /** Events expected of each row. */
  readonly rowExpected: Float64Array;
  /** What each cluster adds to each log ratio, row-major clusters × groups; empty when left out. */
  readonly influence: Float64Array;
  readonly warnings: readonly RegressionWarning[];
  readonly level: number;
}

const GROUP = '(group)';

/**
 * Events observed and expected by group (shop, site), like for like: log ratios of the covariates
 * are fitted together with terms for the groups, so that they are those found within groups, and
 * events are predicted without these terms, on the baseline of all rows together,
 * Σ [Λ(exit|x) − Λ(entry|x)]. A ratio of 1 is thus the average of all groups on like work; a group
 * that is a large part of all pulls that average to itself.
 *
 * The robust limits are exp(log ratio ± z · standard error) with the standard error by the
 * infinitesimal jackknife over clusters: each cluster's pull on the observed, on the baseline and on
 * the coefficients. Beside them stand exact limits that take the expected shares as known: given all
 * events together, those of a group are binomial. Few events call for these; the wider of the two at
 * each end is the one to show.
 *
 * @throws StatisticsError for bad columns, no group, a covariate named `(group)`, a bad level.
 * Source: Breslow & Day vol. II §2.3, §4.2 (observed and expected); Therneau & Grambsch 2000 §7.1
 * (infinitesimal jackknife), §10.3 (expected from a fit); Newcombe 1998 (exact limits of a share). Outside check: R survival (coxph, predict
 * without the group's terms); jackknife by leaving clusters out; coverage under simulation.
 */
export function observedExpected(data: ObservedExpectedData, options: ObservedExpectedOptions = {}): ObservedExpected {
  const level = toLevel(options.level);
  const survival = checkSurvival(data);
  if (!data.group) throw new StatisticsError('group', 'is missing');
  if (data.covariates && GROUP in data.covariates) throw new StatisticsError('covariates', `hold one named ${GROUP}`);
  const group = toCategory('group', data.group, survival.rows);
  const observed = new Float64Array(group.levels.length);
  for (let row = 0; row < survival.rows; row++)
    addTo(observed, group.codes[row] as number, survival.event[row] as number);
  const whole = { ...data, covariates: { [GROUP]: group, ...data.covariates } };
  const fitted = fitWithGroups(whole, group, observed, options.riskSets);
  const cluster = survival.cluster ?? { count: survival.rows, codes: Int32Array.from(survival.exit.keys()) };
  const alike = expectedAlike(whole, fitted.fit, { group, observed, cluster }, options);
  const { of, influence, slope, columns } = alike;
  const { expected, rowExpected } = of;
  if (slope && slope.length > 0 && fitted.fit.terms.length > 0)
    addFitInfluence(influence, slope, of, {
      ...{ ...fitted, columns },
      cluster: fitted.rows ? Int32Array.from(fitted.rows, (row) => cluster.codes[row] as number) : cluster.codes,
    });
  return {
    ...{ levels: group.levels, observed, expected, rowExpected, influence, level, warnings: fitted.warnings },
    ...observedExpectedLimits(observed, expected, influence, level),
    ...expectedLimits(of, survival.event, influence, level),
  };
}

/** What is expected without the terms for the groups. The fit's own table goes with this call: of a large fleet a second one beside it would not fit. */
function expectedAlike(
  whole: ObservedExpectedData,
  fit: FittedCox,
  counted: Pick<InfluenceOf, 'group' | 'observed' | 'cluster'>,
  { riskSets, influence: wanted }: ObservedExpectedOptions,
) {
  const at = coxAtFit(whole, fit, { without: [GROUP], ...(riskSets ? { riskSets } : {}) });
  const { expected: rowExpected } = expectedAt(at);
  const expected = new Float64Array(counted.observed.length);
  for (let row = 0; row < rowExpected.length; row++)
    addTo(expected, counted.group.codes[row] as number, rowExpected[row] as number);
  const of: InfluenceOf = { ...counted, rowExpected, expected };
  const pulls = wanted === false ? { influence: new Float64Array(0), slope: null } : countInfluence(at, of);
  return { of, ...pulls, columns: at.columns };
}

function addTo(sums: Float64Array, at: number, value: number): void {
  sums[at] = (sums[at] as number) + value;
}

interface Fitted {
  readonly data: SurvivalData;
  readonly fit: FittedCox;
  /** Rows of the whole behind the data fitted; null where they are all. */
  readonly rows: Uint32Array | null;
  readonly warnings: readonly RegressionWarning[];
}

/**
 * A group without events has a term of minus infinity, in the limit of which its rows say nothing of
 * the others: they are left out of the fit.
 */
function fitWithGroups(
  { cluster: _, ...whole }: ObservedExpectedData,
  group: Category,
  observed: Float64Array,
  riskSets?: RiskSets,
): Fitted {
  const silent = observed.some((events) => events === 0);
  const rows = silent
    ? Uint32Array.from(group.codes.keys()).filter((row) => observed[group.codes[row] as number] !== 0)
    : null;
  const data = rows ? rowsOf(whole, rows) : whole;
  const none = { terms: [], coefficients: new Float64Array(), covariance: new Float64Array(), ties: 'efron' as const };
  const groups = observed.filter((events) => events > 0).length;
  if (groups === 0 || (groups === 1 && Object.keys(whole.covariates ?? {}).length === 1))
    return { data, fit: none, rows, warnings: [] };
  const fit = coxRegression(data, { concordance: false, ...(riskSets && !rows ? { riskSets } : {}) });
  return { data, fit, rows, warnings: fit.warnings };
}

function rowsOf(whole: ObservedExpectedData, rows: Uint32Array): SurvivalData {
  const take = (column: ArrayLike<number>) => Float64Array.from(rows, (row) => column[row] as number);
  return {
    ...takeRows(whole, rows),
    ...{ exit: take(whole.exit), event: take(whole.event) },
    ...(whole.entry ? { entry: take(whole.entry) } : {}),
  };
}

/**
 * What is watched of a group is given; the error of the expected is that of baseline and coefficients.
 * A cluster's pull on its log is what is left of the pull on the log of the ratio once the cluster's
 * own events and its own work are taken out.
 */
function expectedLimits(
  { group, cluster, observed, expected, rowExpected }: InfluenceOf,
  event: Uint8Array,
  influence: Float64Array,
  level: number,
): Pick<ObservedExpected, 'expectedLower' | 'expectedUpper'> {
  const groups = group.levels.length;
  const pull = influence.map((value) => -value);
  for (let row = 0; row < event.length && pull.length > 0; row++) {
    const own = group.codes[row] as number;
    const work = (rowExpected[row] as number) / (expected[own] as number);
    const seen = event[row] === 1 ? 1 / (observed[own] as number) : 0;
    if (expected[own] !== 0) addTo(pull, (cluster.codes[row] as number) * groups + own, seen - work);
  }
  const squares = new Float64Array(groups);
  for (let place = 0; place < pull.length; place++) addTo(squares, place % groups, (pull[place] as number) ** 2);
  const z = twoSidedQuantile(level);
  const limit = (side: 1 | -1) =>
    Array.from(expected, (value, one) =>
      value > 0 && pull.length > 0 ? value * Math.exp(side * z * Math.sqrt(squares[one] as number)) : null,
    );
  return { expectedLower: limit(-1), expectedUpper: limit(1) };
}
