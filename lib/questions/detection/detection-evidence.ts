import type { View } from '../../../shared/view.ts';
import type { Asking } from '../asking.ts';
import { askedLives } from '../columns/asked-lives.ts';
import type { OutcomeColumns } from '../columns/outcome-columns.ts';
import { hasAge } from '../curve-rows.ts';
import { gather, placesWhere } from '../gather.ts';
import type { GroupKey } from '../group-keys.ts';
import { lifeRows, type LifeRows } from '../life-rows.ts';
import { scopeOf, type LeftOut } from '../scope.ts';
import { checksSeen } from './checks-seen.ts';
import { lifeChecks, type LifeChecks } from './life-checks.ts';

/** Everything that finding late and beginning early are told apart by; columns are one a life of known start. */
export interface DetectionEvidence {
  /** What the groups are told apart by. */
  readonly by: View['by'];
  readonly groups: readonly GroupKey[];
  readonly lives: LifeRows;
  /** Lives of known start that were watched, by place in `lives`. */
  readonly aged: Int32Array;
  /** 1 where a check may not see a leak that is there: semi-fluid grease and packed. */
  readonly hidden: Uint8Array;
  /** Checks of each life, by place in `lives`; null where no inspections stand behind them. */
  readonly checks: LifeChecks | null;
  /** Seal lives alone have outcomes that compete at the wheel end. */
  readonly outcomes: OutcomeColumns | null;
  /** Places in the lives table. */
  readonly rows: Int32Array;
  readonly leftOut: LeftOut;
}

/** Grease hides what oil shows (trade facts 2.3): there a dry check is weaker evidence. */
const hiding = ['semi-fluid', 'packed'];

export async function detectionEvidence(asking: Asking, by: View['by']): Promise<DetectionEvidence> {
  const { source, view, signal } = asking;
  const lives = askedLives(source, view.component);
  const scope = await scopeOf({ ...asking, view: { ...view, by } }, lives);
  const rows = await lifeRows(asking, lives, scope);
  const lubricant = await lives.cut('lubricant', signal);
  const hides = lubricant.levels.map((label) => hiding.includes(label));
  const codes = gather(lubricant.codes, scope.rows);
  const seen = await checksSeen(asking, view.component, view.axis);
  const columns = await lives.columns(signal);
  return {
    ...{ by, groups: scope.keys.groups, lives: rows, rows: scope.rows, leftOut: scope.leftOut },
    aged: placesWhere(rows.rows, (place) => hasAge(rows, place)),
    hidden: Uint8Array.from(codes, (code) => (hides[code] === true ? 1 : 0)),
    checks: seen && lifeChecks(seen, scope.rows, columns.rows),
    outcomes: view.component === 'seal' ? await lives.outcomes(signal) : null,
  };
}
