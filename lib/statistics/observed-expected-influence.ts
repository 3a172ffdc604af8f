import { coxAtFit, type CoxAtFit, type FittedCox } from './cox-at-fit.ts';
import { clusterScores } from './cox-score.ts';
import { factorAt } from './cox-sweep.ts';
import { groupShares } from './group-shares.ts';
import type { Category, Codes, SurvivalData } from './survival-data.ts';

export interface InfluenceOf {
  /** The events that the fit without its group terms expects of each row. */
  readonly rowExpected: Float64Array;
  readonly group: Category;
  readonly cluster: Codes;
  /** Per group. */
  readonly observed: Float64Array;
  readonly expected: Float64Array;
}

/**
 * What each cluster adds to log(observed/expected) of each group, the coefficients as known: row-major
 * clusters × groups. Expected = ∫ p dN with p the group's share of the risk; taking a row a little
 * more often moves N, the group's risk and the whole risk. `slope` is how the expected moves with the
 * coefficients, groups × columns, in the covariates' own units.
 */
export function countInfluence(
  at: CoxAtFit,
  of: InfluenceOf,
): { readonly influence: Float64Array; readonly slope: Float64Array } {
  const { rowExpected, group, cluster, observed, expected } = of;
  const { problem, sums, survival } = at;
  const { sets, pattern, table, width } = problem;
  const groups = group.levels.length;
  const { share, cumulative } = groupShares(at, group);
  const influence = new Float64Array(cluster.count * groups);
  // By design row, since all rows with the same one move with the coefficients alike.
  const moved = new Float64Array(problem.patterns * groups);
  for (let time = 0; time < sets.time.length; time++) {
    const alive = (sets.firstPosition[time] as number) + (sets.deaths[time] as number);
    for (
      let position = sets.firstPosition[time] as number;
      position < (sets.firstPosition[time + 1] as number);
      position++
    ) {
      const row = sets.row[position] as number;
      const design = pattern[position] as number;
      const [own, into] = [group.codes[row] as number, (cluster.codes[row] as number) * groups];
      const risk = (sums.ratio[design] as number) * factorAt(problem, position);
      const entry = sets.entryTime[position] as number;
      for (let one = 0; one < groups; one++) {
        if (expected[one] === 0) continue;
        const before = entry < 0 ? 0 : (cumulative[entry * groups + one] as number);
        const spread = risk * ((cumulative[time * groups + one] as number) - before);
        const net = (one === own ? (rowExpected[row] as number) : 0) - spread;
        const failed = position < alive ? (share[time * groups + one] as number) : 0;
        influence[into + one] = (influence[into + one] as number) - (failed + net) / (expected[one] as number);
        moved[design * groups + one] = (moved[design * groups + one] as number) + net;
      }
    }
  }
  for (let row = 0; row < survival.rows; row++) {
    const own = group.codes[row] as number;
    if (survival.event[row] !== 1) continue;
    const place = (cluster.codes[row] as number) * groups + own;
    influence[place] = (influence[place] as number) + 1 / (observed[own] as number);
  }
  const slope = new Float64Array(groups * width);
  for (let design = 0; design < problem.patterns; design++)
    for (let one = 0; one < groups; one++)
      for (let j = 0; j < width; j++)
        slope[one * width + j] =
          (slope[one * width + j] as number) +
          (moved[design * groups + one] as number) *
            (table[design * width + j] as number) *
            (problem.scale[j] as number);
  return { influence, slope };
}

/**
 * Adds what each cluster does through the coefficients, by the infinitesimal jackknife of the fit.
 * `columns` are the fitted terms behind the columns of `slope`.
 */
export function addFitInfluence(
  influence: Float64Array,
  slope: Float64Array,
  { expected, cluster }: InfluenceOf,
  fitted: {
    readonly data: SurvivalData;
    readonly fit: FittedCox;
    readonly cluster: Int32Array;
    readonly columns: readonly number[];
  },
): void {
  const { fit, columns } = fitted;
  const whole = coxAtFit(fitted.data, fit);
  const { scale } = whole.problem;
  const [terms, kept, groups] = [fit.terms.length, columns.length, expected.length];
  const scores = clusterScores(whole.problem, whole.sums, fitted.cluster, cluster.count);
  const weights = new Float64Array(groups * terms);
  for (let one = 0; one < groups; one++)
    for (let j = 0; j < kept; j++)
      for (let term = 0; term < terms; term++) {
        const covariance = fit.covariance[(columns[j] as number) * terms + term] as number;
        if (Number.isFinite(covariance))
          weights[one * terms + term] =
            (weights[one * terms + term] as number) +
            (slope[one * kept + j] as number) * covariance * (scale[term] as number);
      }
  for (let code = 0; code < cluster.count; code++)
    for (let one = 0; one < groups; one++) {
      if (expected[one] === 0) continue;
      let sum = 0;
      for (let term = 0; term < terms; term++)
        sum += (weights[one * terms + term] as number) * (scores[code * terms + term] as number);
      influence[code * groups + one] = (influence[code * groups + one] as number) - sum / (expected[one] as number);
    }
}
