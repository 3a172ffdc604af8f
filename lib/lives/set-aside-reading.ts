import type { MileageRule, RightedRule } from '../../shared/choices.ts';
import type { Beside } from './course-fit.ts';
import { kilometresForMiles } from './kilometres-for-miles.ts';
import { agree, mostMilesADay, type MeterPoint, type Rules } from './meter-point.ts';
import { slippedDigit } from './slipped-digit.ts';

/** Why a reading is not used as written, what was meant where that can be told, and what would have been accepted. */
export interface SetAsideReading {
  readonly rule: MileageRule;
  readonly meant: number | null;
  readonly least: number | null;
  readonly most: number | null;
}

const furthest = (a: MeterPoint, b: MeterPoint) => mostMilesADay * Math.max(b.day - a.day, 1);

/** The rule a reading breaks against the kept ones beside it: with the one before it, else with the one after it. */
function ruleBroken(point: MeterPoint, before: MeterPoint | null, after: MeterPoint | null, rules: Rules): MileageRule {
  if (before && !agree(before, point, rules)) return point.miles < before.miles ? 'runs-backward' : 'too-fast';
  if (after && !agree(point, after, rules)) return point.miles > after.miles ? 'runs-backward' : 'too-fast';
  return rules['runs-backward'] ? 'runs-backward' : 'too-fast';
}

/** What a reading set aside may have meant, by the rule that puts it right; of two ways the one nearer to what was to be expected. */
function meantBy(
  point: MeterPoint,
  beside: Beside,
  rules: Rules,
): { readonly rule: RightedRule; readonly miles: number } | null {
  const slip = rules['digit-slip'] ? slippedDigit(point, beside, rules) : null;
  const divided = rules.kilometres ? kilometresForMiles(point, beside, rules) : null;
  if (divided && (!slip || divided.off < slip.off)) return { rule: 'kilometres', miles: divided.miles };
  return slip && { rule: 'digit-slip', miles: slip.miles };
}

/** What to make of a reading set aside, given the readings kept on either side of it on the same meter. */
export function setAsideReading(
  point: MeterPoint,
  before: MeterPoint | null,
  after: MeterPoint | null,
  pace: number | null,
  rules: Rules,
): SetAsideReading {
  const meant = meantBy(point, { before, after, pace }, rules);
  const lower = [before?.miles, after && after.miles - furthest(point, after)].filter((miles) => miles != null);
  const upper = [after?.miles, before && before.miles + furthest(before, point)].filter((miles) => miles != null);
  return {
    rule: meant?.rule ?? ruleBroken(point, before, after, rules),
    meant: meant?.miles ?? null,
    least: lower.length > 0 ? Math.max(0, ...lower) : null,
    most: upper.length > 0 ? Math.min(...upper) : null,
  };
}
