import type { AxleHistory } from './axle-history.ts';
import { isoDateOf } from './calendar.ts';
import type { Check } from './plan-checks.ts';
import { bitOf } from './planted-deviations.ts';
import type { InspectionRow } from './rows.ts';
import type { WheelEnd } from './wheel-end.ts';

const UNDERFILLED = bitOf('underfilled');

/** What was seen of one wheel end. */
export interface Sight {
  readonly leak: 0 | 1 | 2 | 3;
  readonly at: string | null;
  /** The bearings were felt to be loose or metal was seen in the lubricant. */
  readonly loose: boolean;
}

export function inspectionRow(
  history: AxleHistory,
  end: WheelEnd,
  check: Check,
  sight: Sight,
  checked: boolean,
): InspectionRow {
  const { random, mileage, row } = history.unit;
  const side = end.side === 'left' ? 'L' : 'R';
  const annual = checked && check.kind === 'annual' && end.axle.build !== 'unitized';
  const low =
    sight.leak >= 2 || sight.at === 'unknown' || (end.life.installation.bits & UNDERFILLED && random.chance(0.5));
  const oil = annual && end.axle.lubricant === 'oil';
  return {
    inspection_id: `${check.sheet}-${end.axle.number}${side}`,
    unit_id: row.unit_id,
    axle: end.axle.number,
    side: end.side,
    date: isoDateOf(check.day),
    miles: mileage.read(check.day),
    kind: check.kind,
    checked: checked ? 'yes' : 'no',
    leak: checked ? sight.leak : null,
    leak_at: sight.leak > 0 ? sight.at : null,
    lubricant_level: sight.at === 'unknown' || oil ? (low ? 'low' : 'ok') : null,
    lubricant_condition: oil ? (sight.loose ? 'metallic' : random.chance(0.8) ? 'clear' : 'dark') : null,
    lining_contaminated: sight.at === 'inboard' ? (end.soakedAt(mileage.at(check.day)) ? 'yes' : 'no') : null,
    end_play_in:
      annual && end.axle.build === 'adjusted' && random.chance(0.1) ? playNow(random.normal(), sight.loose) : null,
  };
}

function playNow(normal: number, loose: boolean): number {
  return Math.max(1, Math.round((loose ? 11 : 3.5) + 1.2 * normal)) / 1000;
}
