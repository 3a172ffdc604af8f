import type { View } from '../../shared/view.ts';
import { logRank, type LogRank } from '../statistics/index.ts';
import { chosenPair, comparable, corrected, largerPValue, type Comparison } from './comparison.ts';
import { keptRows, type CurveRows } from './curve-rows.ts';
import type { GroupKey } from './group-keys.ts';
import type { LifeCurves } from './life-curves.ts';
import { pikeRatio, vehicleInflation } from './pike-ratio.ts';

/** The pair's rows, the reference coded 0 and the compared 1, and their log-rank test. */
export interface PairTest {
  readonly rows: CurveRows;
  readonly test: LogRank;
}

export interface LivesCompared {
  readonly comparison: Comparison | null;
  /** Groups that can be compared, the shortest-lived (most failures over expected) first. */
  readonly worstFirst: readonly number[];
  /** Null without a pair. */
  readonly pair: PairTest | null;
}

function pairRows(rows: CurveRows, compared: number, reference: number): CurveRows {
  const { codes } = rows.group;
  const pair = keptRows(rows, (row) => codes[row] === compared || codes[row] === reference);
  const recoded = pair.group.codes.map((code) => (code === compared ? 1 : 0));
  return { ...pair, group: { levels: ['reference', 'compared'], codes: recoded } };
}

/** Failures over those expected were the hazard the same in all groups, by group. */
function excessOf({ rows, curves }: LifeCurves, candidates: readonly number[]): number[] {
  const { entry, exit, event, group } = rows;
  const { observed, expected } = logRank({ entry, exit, event, group });
  return curves.map((_, index) =>
    candidates.includes(index) && (expected[index] as number) > 0
      ? (observed[index] as number) / (expected[index] as number)
      : 0,
  );
}

/** Failures per mile at risk, by group: enough to put two groups in order. */
function ratesOf({ rows, curves }: LifeCurves): number[] {
  const miles = curves.map(() => 0);
  for (let row = 0; row < rows.rows; row++) {
    const group = rows.group.codes[row] as number;
    miles[group] = (miles[group] as number) + (rows.exit[row] as number) - (rows.entry[row] as number);
  }
  return curves.map(({ events }, group) => events.reduce((sum, one) => sum + one, 0) / (miles[group] || 1));
}

/** Compares the two groups an answer sets against each other by the log-rank test, late entry allowed for. */
export function compareLives(view: View, groups: readonly GroupKey[], drawn: LifeCurves): LivesCompared {
  const events = drawn.curves.map((curve) => curve.events.reduce((sum, one) => sum + one, 0));
  const candidates = comparable(groups, events);
  if (candidates.length < 2) return { comparison: null, worstFirst: candidates, pair: null };
  const excess = candidates.length > 2 ? excessOf(drawn, candidates) : ratesOf(drawn);
  const worstFirst = [...candidates].sort((a, b) => (excess[b] as number) - (excess[a] as number));
  const pair = chosenPair(view, groups, events, excess);
  if (!pair) return { comparison: null, worstFirst, pair: null };
  const rows = pairRows(drawn.rows, pair.compared, pair.reference);
  const test = logRank(rows);
  const rawPValue = largerPValue(test.pValue, test.robust?.pValue);
  const comparison = {
    ...pair,
    ratio: pikeRatio(test, view.level, vehicleInflation(test)),
    ...{ rawPValue, pValue: corrected(rawPValue, pair.pairs) },
  };
  return { comparison, worstFirst, pair: { rows, test } };
}
