import { mileageRuleNames, type MileageRule } from '../../shared/choices.ts';
import { numberColumn, textColumn, type Engine } from '../engine/engine.ts';
import { joinSql, sql, type Statement } from '../engine/statement.ts';

/** A row whose written miles were judged, whichever column of whichever table said them. */
const judged = (table: string, date: string, miles: string, from: string): Statement => ({
  text: `select r.unit_id, '${table}' as "table", r.file_id, r.line, r.${date} as date, v.rule, r.${miles} as miles_written, v.used_miles as given_miles,
    case when v.used_miles is null then d.miles else v.used_miles end as miles_used, v.least, v.most
  from ${from} r join work_mile_verdicts v on v.unit_id = r.unit_id and v.day = r.${date} and v.miles = r.${miles}
  left join work_day_miles d on d.unit_id = r.unit_id and d.day = r.${date}`,
  values: [],
});

const blank = (table: string): Statement => ({
  text: `select unit_id, '${table}', file_id, line, date, miles_rule, null, null, at_miles, null, null from work_placed_${table} where miles is null`,
  values: [],
});

/**
 * `mileage_repairs`: a row for every row whose miles are not used as written: where it stands, the
 * rule (a name of `mileageRules`), the miles as written and as used (those of a meter never reset),
 * and, of a reading that cannot be right, what would have been accepted there. A view: nothing is
 * held twice, and nobody waits for it who does not ask.
 */
export const mileageRepairs: readonly Statement[] = [
  sql`create or replace view mileage_repairs as select unit_id, "table", file_id, line, date, rule, miles_written, miles_used, least as accepted_from, most as accepted_to from (${joinSql(
    [
      judged('readings', 'date', 'miles', 'fleet_readings'),
      judged('units', 'in_service_date', 'in_service_miles', 'fleet_unit_rows'),
      judged('units', 'out_date', 'out_miles', 'fleet_unit_rows'),
      ...(['services', 'inspections', 'failures'] as const).flatMap((table) => [
        judged(table, 'date', 'miles', `fleet_${table}`),
        blank(table),
      ]),
    ],
    ' union all ',
  )})`,
];

export interface RepairCount {
  readonly rule: MileageRule;
  readonly rows: number;
  readonly units: number;
}

/** How many rows, of how many units, each rule changed or filled; rules that met nothing count 0. */
export async function repairCounts(engine: Engine, signal?: AbortSignal): Promise<RepairCount[]> {
  const found = await engine.query(
    sql`select rule, cast(count(*) as double) as repaired, cast(count(distinct unit_id) as double) as units from mileage_repairs group by rule`,
    signal,
  );
  const [rules, rows, units] = [
    textColumn(found, 'rule'),
    numberColumn(found, 'repaired'),
    numberColumn(found, 'units'),
  ];
  return mileageRuleNames.map((rule) => {
    const at = rules.indexOf(rule);
    return { rule, rows: at < 0 ? 0 : (rows[at] as number), units: at < 0 ? 0 : (units[at] as number) };
  });
}
