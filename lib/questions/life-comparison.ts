import { shownLimits, type Estimate } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';
import { coxRegression } from '../statistics/cox-regression.ts';
import { logRank } from '../statistics/index.ts';
import { chosenPair, comparable, corrected, largerPValue, type Comparison } from './comparison.ts';
import type { CurveRows } from './curve-rows.ts';
import { noEstimate, toEstimate } from './estimate.ts';
import type { GroupKey } from './group-keys.ts';
import type { LifeCurves } from './life-curves.ts';

export interface LivesCompared {
  readonly comparison: Comparison | null;
  /** Groups that can be compared, the shortest-lived (most failures over expected) first. */
  readonly worstFirst: readonly number[];
  /** Hazard ratio of the pair compared, and its rows; null without a pair. */
  readonly hazard: Estimate | null;
  readonly two: CurveRows | null;
}

const none = { comparison: null, hazard: null, two: null };

/** Rows of two groups, the reference coded 0 and the compared 1. */
export function pairRows(rows: CurveRows, compared: number, reference: number): CurveRows {
  const kept: number[] = [];
  for (let row = 0; row < rows.rows; row++) {
    const code = rows.group.codes[row];
    if (code === compared || code === reference) kept.push(row);
  }
  const numbers = (column: Float64Array) => Float64Array.from(kept, (row) => column[row] as number);
  const codes = (column: Uint8Array) => Uint8Array.from(kept, (row) => column[row] as number);
  const whole = (column: Int32Array) => Int32Array.from(kept, (row) => column[row] as number);
  return {
    ...{ rows: kept.length, entry: numbers(rows.entry), exit: numbers(rows.exit), event: codes(rows.event) },
    ...{ cause: codes(rows.cause), cluster: whole(rows.cluster), source: whole(rows.source) },
    group: {
      levels: ['reference', 'compared'],
      codes: Int32Array.from(kept, (row) => (rows.group.codes[row] === compared ? 1 : 0)),
    },
  };
}

/**
 * Hazard ratio of the compared group to the reference, with vehicle-robust limits beside. Without a
 * finite estimate there is none.
 */
export function hazardRatio({ entry, exit, event, cluster, group }: CurveRows, level: number): Estimate {
  const about = { level, unit: 'ratio', method: 'proportional hazards (Efron), late entry' };
  const data = { entry, exit, event, cluster, covariates: { group: Float64Array.from(group.codes) } };
  const { ratio, lower, upper, robustLower, robustUpper, warnings } = coxRegression(data, {
    level,
    concordance: false,
  });
  const failed = warnings.find(({ kind }) => kind !== 'few-clusters');
  if (failed || ratio.length === 0)
    return noEstimate({ ...about, reason: failed?.message ?? 'the groups are never at risk together' });
  const at = (values: Float64Array | undefined) => values?.[0] ?? null;
  const vehicle = robustLower ? { value: null, lower: at(robustLower), upper: at(robustUpper) } : null;
  return toEstimate({ value: at(ratio), lower: at(lower), upper: at(upper) }, about, vehicle);
}

/** Compares the two groups an answer sets against each other by the log-rank test, late entry allowed for. */
export function compareLives(view: View, groups: readonly GroupKey[], drawn: LifeCurves): LivesCompared {
  const { rows, curves } = drawn;
  const events = curves.map(({ events: each }) => each.reduce((sum, one) => sum + one, 0));
  const candidates = comparable(groups, events);
  if (candidates.length < 2) return { ...none, worstFirst: candidates };
  const { observed, expected } = logRank({ entry: rows.entry, exit: rows.exit, event: rows.event, group: rows.group });
  const excess = observed.map((count, group) =>
    (expected[group] as number) > 0 ? count / (expected[group] as number) : 0,
  );
  const worstFirst = [...candidates].sort((a, b) => (excess[b] as number) - (excess[a] as number));
  const pair = chosenPair(view, groups, events, excess);
  if (!pair) return { ...none, worstFirst };
  const two = pairRows(rows, pair.compared, pair.reference);
  const test = logRank(two);
  const rawPValue = largerPValue(test.pValue, test.robust?.pValue);
  const hazard = hazardRatio(two, view.level);
  const ratio = { value: hazard.value, ...shownLimits(hazard) };
  return {
    comparison: { ...pair, ratio, rawPValue, pValue: corrected(rawPValue, pair.pairs) },
    worstFirst,
    hazard,
    two,
  };
}
