import type { Doubt } from '../../../shared/finding.ts';
import { logRank } from '../../statistics/index.ts';
import type { CurveRows } from '../curve-rows.ts';
import { firmnessRule, pWords } from '../firmness.ts';
import { ratioText, type Wording } from '../words/wording.ts';
import { doubt } from './doubt.ts';

/** Age by which half of the failures have come. */
function middleAge({ exit, event }: CurveRows): number | null {
  const ages = exit.filter((_, row) => event[row] === 1).sort();
  return ages.length < 2 * firmnessRule.thinFailures ? null : (ages[ages.length >> 1] as number);
}

/** The rows as watched up to an age, or from it on. */
function watched(rows: CurveRows, age: number, early: boolean): CurveRows {
  const kept = Array.from({ length: rows.rows }, (_, row) => row).filter((row) =>
    early ? (rows.entry[row] as number) < age : (rows.exit[row] as number) > age,
  );
  const from = (row: number) => rows.entry[row] as number;
  const to = (row: number) => rows.exit[row] as number;
  return {
    ...rows,
    rows: kept.length,
    entry: Float64Array.from(kept, (row) => (early ? from(row) : Math.max(from(row), age))),
    exit: Float64Array.from(kept, (row) => (early ? Math.min(to(row), age) : to(row))),
    event: Uint8Array.from(kept, (row) => (early && to(row) > age ? 0 : (rows.event[row] as number))),
    cluster: Int32Array.from(kept, (row) => rows.cluster[row] as number),
    group: { levels: rows.group.levels, codes: Int32Array.from(kept, (row) => rows.group.codes[row] as number) },
  };
}

function part(rows: CurveRows, age: number, early: boolean) {
  const test = logRank(watched(rows, age, early));
  const over = (group: number) => (test.observed[group] as number) / (test.expected[group] as number);
  return { ratio: over(1) / over(0), pValue: Math.max(test.pValue ?? 1, test.robust?.pValue ?? 0) };
}

/**
 * Whether the difference lasts: the log-rank test before and after the age by which half have
 * failed. Fails where the groups change places (the curves may cross), or where one half has the
 * difference and the other, at twice its ratio or less, has not.
 */
export function crossingHazards(two: CurveRows | null, words: Wording): Doubt | null {
  const age = two && middleAge(two);
  if (!two || age === null) return null;
  const [early, late] = [part(two, age, true), part(two, age, false)];
  const name = 'The same throughout';
  const settledBy = 'the curves read by age, not one ratio for all of it';
  if (![early, late].every(({ ratio }) => Number.isFinite(ratio) && ratio > 0)) return null;
  const says = `before ${words.miles(age)} ${ratioText(early.ratio)} times the failures (${pWords(early.pValue)}), after it ${ratioText(late.ratio)} times (${pWords(late.pValue)})`;
  const least = Math.min(early.pValue, late.pValue);
  const turns = early.ratio > 1 !== late.ratio > 1 && least < firmnessRule.firmPValue;
  const apart = Math.abs(Math.log(early.ratio / late.ratio)) > Math.log(2) && least < firmnessRule.firmPValue;
  if (turns) return doubt(name, 'fails', `The groups change places: ${says}.`, settledBy);
  return apart
    ? doubt(name, 'fails', `The difference is not the same throughout: ${says}.`, settledBy)
    : doubt(name, 'holds', `No sign that the difference changes with age: ${says}.`, settledBy);
}
