import type { BrokenLink } from '../../../shared/record-quality.ts';
import { numberColumn, textColumn, type ResultTable } from '../../engine/engine.ts';
import { joinSql, sql, type Statement } from '../../engine/statement.ts';

/** A leak seen counts as followed up where a failure of that wheel end is written down within so many days. */
const followUpDays = 60;

/** One row: how many rows of how many lack what they should meet, and the ids of three of them. */
const lacking = (name: string, id: Statement, lacks: Statement, from: Statement): Statement => sql`
select ${name} as name, cast(count(*) filter (${lacks}) as double) as n, cast(count(*) as double) as total,
  array_to_string((array_agg(${id} order by ${id}) filter (${lacks}))[1:3], '; ') as examples from ${from}`;

const unplaced = (table: 'services' | 'inspections', id: Statement): Statement =>
  lacking(
    `${table} of units or axles that the units table does not have`,
    id,
    sql`w.wheel_end is null`,
    table === 'services'
      ? sql`services r left join work_wheel_ends w on w.unit_id = r.unit_id and w.axle = r.axle and w.side = r.side`
      : sql`inspections r left join work_wheel_ends w on w.unit_id = r.unit_id and w.axle = r.axle and w.side = r.side`,
  );

/** A failure that ended no life and is neither another component's nor a fastener's. */
const noLife = sql`fate not in ('ended a life', 'another component', 'further report of an episode already counted')
  and fate not like 'wheel lost through%'`;

/** Every link that records should have, in the order of the work. Needs `failure_fates_seal`. */
export const linksStatement = joinSql(
  [
    lacking('failures that met no life', sql`failure_id`, noLife, sql`failure_fates_seal`),
    unplaced('services', sql`service_id`),
    unplaced('inspections', sql`inspection_id`),
    lacking(
      'leaks of 2 or more without a failure row within 60 days',
      sql`inspection_id`,
      sql`f.wheel_end is null`,
      sql`(select * from work_placed_inspections where checked = 'yes' and leak >= 2) i
        left join (select distinct inspection_id as met, f.wheel_end from work_placed_inspections i join work_placed_failures f
          on f.wheel_end = i.wheel_end and f.date - i.date between ${-1} and ${followUpDays}) f on f.met = i.inspection_id`,
    ),
    lacking(
      'services with reason failure or comeback and no failure row in the 30 days before',
      sql`s.service_id`,
      sql`f.service_id is null`,
      sql`(select * from work_placed_services where in_window and reason in ('failure', 'comeback')) s
        left join (select distinct s.service_id from work_placed_services s join work_placed_failures f
          on f.wheel_end = s.wheel_end and (f.repair_service_id = s.service_id or s.date - f.date between 0 and 30)) f on f.service_id = s.service_id`,
    ),
    lacking(
      'failures naming a repair that no service has',
      sql`failure_id`,
      sql`not coalesce(repair_service_id in (select service_id from services), false)`,
      sql`(select * from failures where repair_service_id is not null) f`,
    ),
    lacking(
      'units whose miles nobody wrote down',
      sql`u.unit_id`,
      sql`m.unit_id is null`,
      sql`(select distinct unit_id from work_wheel_ends) u left join work_unit_miles m on m.unit_id = u.unit_id`,
    ),
  ],
  ' union all ',
);

export const brokenLinks = (result: ResultTable): BrokenLink[] =>
  textColumn(result, 'name').map((name, row) => ({
    name: name ?? '',
    rows: numberColumn(result, 'n')[row] as number,
    of: numberColumn(result, 'total')[row] as number,
    examples: (textColumn(result, 'examples')[row] ?? '').split('; ').filter((id) => id !== ''),
  }));
