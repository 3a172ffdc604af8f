import { numberColumn, textColumn, type ResultTable } from '../../engine/engine.ts';
import { sql, type Statement } from '../../engine/statement.ts';
import type { SevereEvent } from '../../../shared/finding.ts';
import { run, type Asking } from '../asking.ts';
import { askedLives } from '../columns/asked-lives.ts';
import { scopeOf } from '../scope.ts';
import type { Compared } from './shops-evidence.ts';

/**
 * Hot hubs, wheels lost otherwise than through their fasteners, and vehicles put out of service at a
 * wheel end, each with the seal life it fell into: too few to compare, each one to be looked at.
 */
export const severeEventsStatement: Statement = sql`
select f.failure_id, f.unit_id, f.axle || ' ' || f.side as position, cast(f.date as varchar) as day, f.mode,
  cast(f.mode = 'hot-hub' as integer) as hot, cast(f.mode = 'wheel-lost' or coalesce(f.wheel_lost = 'yes', false) as integer) as lost,
  cast(coalesce(f.out_of_service = 'yes', false) as integer) as out_of_service,
  f.wheel_lost_by, cast(l.rowid as integer) as life_row, f.at_miles - l.install_miles as age_miles
from work_placed_failures f
left join work_slotted_seal s on s.failure_id = f.failure_id
left join (select rowid, wheel_end, slot, install_miles from lives_seal) l on l.wheel_end = s.wheel_end and l.slot = s.slot
where not f.by_fastener and (f.mode in ('hot-hub', 'wheel-lost') or f.wheel_lost = 'yes' or f.out_of_service = 'yes') and f.in_window
order by f.date, f.unit_id, f.failure_id`;

/** Every severe event of the lives the view chooses, whoever fitted; null where no failure records stand behind the lives. */
export async function severeEvents(asking: Asking, compared: Compared): Promise<SevereEvent[] | null> {
  const { source, view, signal } = asking;
  if (!source.fromRecords) return null;
  const seals = askedLives(source, 'seal');
  const { rows } = await scopeOf({ ...asking, view: { ...view, by: [] } }, seals);
  const found = await run(asking, severeEventsStatement);
  const { levels, codes } = await seals.cut(compared, signal);
  const chosen = new Set(rows);
  const unfiltered = Object.keys(view.where).length === 0 && view.installedFrom === null && view.installedTo === null;
  const life = numberColumn(found, 'life_row');
  return Array.from(life, (row, at) => ({ row, at })).flatMap(({ row, at }) => {
    const placed = !Number.isNaN(row);
    if (placed ? !chosen.has(row) : !unfiltered) return [];
    return [severeEvent(found, at, placed ? (levels[codes[row] as number] ?? 'unknown') : 'unknown')];
  });
}

function severeEvent(found: ResultTable, at: number, group: string): SevereEvent {
  const flag = (name: string) => numberColumn(found, name)[at] === 1;
  const text = (name: string) => textColumn(found, name)[at] ?? 'unknown';
  const age = numberColumn(found, 'age_miles')[at] as number;
  const kinds: SevereEvent['kinds'] = [
    ...(flag('hot') ? (['hot-hub'] as const) : []),
    ...(flag('lost') ? (['wheel-lost'] as const) : []),
    ...(flag('out_of_service') ? (['out-of-service'] as const) : []),
  ];
  return {
    ...{ kinds, group, unitId: text('unit_id'), position: text('position'), date: text('day'), mode: text('mode') },
    ...{ lostBy: flag('lost') ? text('wheel_lost_by') : null, failureId: text('failure_id') },
    milesSinceFitted: Number.isNaN(age) ? null : age,
  };
}
