import type { Doubt } from '../../../shared/finding.ts';
import { logRank } from '../../statistics/index.ts';
import { keptRows, type CurveRows } from '../curve-rows.ts';
import { firmnessRule } from '../firmness.ts';
import type { PairTest } from '../life-comparison.ts';
import { pikeRatio, vehicleInflation } from '../pike-ratio.ts';
import { range, ratioText, type Limits, type Wording } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** Age by which half of the failures have come; null where they are too few to halve. */
function middleAge({ exit, event }: CurveRows): number | null {
  const ages = exit.filter((_, row) => event[row] === 1).sort();
  return ages.length < 2 * firmnessRule.thinFailures ? null : (ages[ages.length >> 1] as number);
}

/** Failures before an age: the rows as watched until just then. */
function early(rows: CurveRows, age: number) {
  const { entry, exit, event, group } = keptRows(rows, (row) => (rows.entry[row] as number) < age);
  const cut = exit.map((end) => Math.min(end, age));
  return logRank({ entry, exit: cut, event: event.map((one, row) => ((exit[row] as number) > age ? 0 : one)), group });
}

const apart = (one: Limits, other: Limits): boolean =>
  (one.lower ?? 0) > (other.upper ?? Infinity) || (other.lower ?? 0) > (one.upper ?? Infinity);

/**
 * Whether the difference lasts: the ratio before and after the age by which half have failed.
 * Observed and expected failures add up over age, so the late ones are the whole less the early.
 * Fails where the two intervals do not overlap.
 */
export function crossingHazards(pair: PairTest | null, level: number, words: Wording): Doubt | null {
  const age = pair && middleAge(pair.rows);
  if (!pair || age === null) return null;
  const before = early(pair.rows, age);
  const less = (name: 'observed' | 'expected') =>
    pair.test[name].map((value, group) => Math.max(0, value - (before[name][group] as number)));
  const inflation = vehicleInflation(pair.test);
  const first = pikeRatio(before, level, inflation);
  const then = pikeRatio({ observed: less('observed').map(Math.round), expected: less('expected') }, level, inflation);
  if (first.value === null || then.value === null) return null;
  const say = ({ value, ...limits }: typeof first) => `${ratioText(value as number)} times ${range(limits, ratioText)}`;
  const says = `${say(first)} the failures before ${words.age(age)}, ${say(then)} after`;
  const fails = apart(first, then);
  const turns = first.value > 1 !== then.value > 1;
  const lead = !fails
    ? 'No sign that the difference changes with age'
    : turns
      ? 'The groups change places'
      : 'The difference is not the same throughout';
  const settledBy = 'the curves read by age, not one ratio for all of it';
  return doubt('The same throughout', failsIf(fails), `${lead}: ${says}.`, settledBy);
}
