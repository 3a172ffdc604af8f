import type { Choices, MileageRule } from '../../shared/choices.ts';
import { numberColumn, textColumn, type Engine } from '../engine/engine.ts';
import { sql, type Statement } from '../engine/statement.ts';
import { repairCounts, type RepairCount } from './mileage-repairs.ts';
import { unitShops } from './unit-shops.ts';

/** What one shop recorded of the units that are its own, and between which days. */
export interface ShopSpan {
  readonly shop: string;
  readonly units: number;
  readonly events: number;
  readonly firstDay: string | null;
  readonly lastDay: string | null;
}

/** What the rebuild of seal lives took for true, and what it came to. */
export interface RebuildAccount {
  readonly lives: number;
  readonly failures: number;
  /** Wheel-end miles at risk. */
  readonly miles: number;
  /** Lives that were running when watching began. */
  readonly lateEntries: number;
  readonly unknownStarts: number;
  readonly observedFrom: string | null;
  readonly observedTo: string | null;
  readonly shops: readonly ShopSpan[];
  readonly repairs: readonly RepairCount[];
  /** Rows set aside as said before, by the rule that found them. */
  readonly duplicates: Readonly<Record<keyof Choices['duplicates'], number>>;
}

/** A row whose miles are not used as written. */
export interface MileageRepair {
  readonly unitId: string;
  readonly table: string;
  readonly fileId: number;
  readonly line: number;
  readonly day: string;
  readonly rule: MileageRule;
  readonly written: number | null;
  readonly used: number | null;
  readonly acceptedFrom: number | null;
  readonly acceptedTo: number | null;
}

export const totalsStatement: Statement = sql`
select cast(count(*) as double) as lives, cast(count(*) filter (state = 'failed') as double) as failures,
  coalesce(sum(exposure_miles), 0) as miles, cast(count(*) filter (entry_miles > 0) as double) as late_entries,
  cast(count(*) filter (not install_known) as double) as unknown_starts,
  (select cast(observed_from as varchar) from observation) as observed_from, (select cast(observed_to as varchar) from observation) as observed_to
from lives_seal`;

export const shopSpansStatement: Statement = sql`
with shops as (${unitShops}), events as (
  select unit_id, date from fleet_services union all select unit_id, date from fleet_inspections union all select unit_id, date from fleet_failures
)
select s.shop, cast(count(distinct s.unit_id) as double) as units, cast(count(e.date) as double) as events,
  cast(min(e.date) as varchar) as first_day, cast(max(e.date) as varchar) as last_day
from shops s left join events e on e.unit_id = s.unit_id group by s.shop order by s.shop`;

export const duplicatesStatement: Statement = sql`
select cast(count(*) filter (rule = 'samePayload') as double) as same_payload, cast(count(*) filter (rule = 'reopenedOrders') as double) as reopened_orders
from duplicate_ids`;

/** Rules one after the other, within each by unit and day. */
export const repairsStatement = (offset: number, limit: number | null): Statement => sql`
select unit_id, "table", cast(file_id as double) as file_id, cast(line as double) as line, cast(date as varchar) as day, rule,
  miles_written, miles_used, accepted_from, accepted_to
from mileage_repairs order by rule, unit_id, date, "table", file_id, line limit cast(${limit ?? 1e12} as bigint) offset cast(${offset} as bigint)`;

/** Over `lives_seal`, which must have been made from records. */
export async function rebuildAccount(engine: Engine, signal?: AbortSignal): Promise<RebuildAccount> {
  const totals = await engine.query(totalsStatement, signal);
  const spans = await engine.query(shopSpansStatement, signal);
  const twice = await engine.query(duplicatesStatement, signal);
  const total = (name: string) => numberColumn(totals, name)[0] ?? 0;
  const [units, events] = [numberColumn(spans, 'units'), numberColumn(spans, 'events')];
  const [first, last] = [textColumn(spans, 'first_day'), textColumn(spans, 'last_day')];
  return {
    ...{ lives: total('lives'), failures: total('failures'), miles: total('miles') },
    ...{ lateEntries: total('late_entries'), unknownStarts: total('unknown_starts') },
    observedFrom: textColumn(totals, 'observed_from')[0] ?? null,
    observedTo: textColumn(totals, 'observed_to')[0] ?? null,
    shops: textColumn(spans, 'shop').map((shop, row) => ({
      ...{ shop: shop ?? '', units: units[row] ?? 0, events: events[row] ?? 0 },
      ...{ firstDay: first[row] ?? null, lastDay: last[row] ?? null },
    })),
    repairs: await repairCounts(engine, signal),
    duplicates: {
      samePayload: numberColumn(twice, 'same_payload')[0] ?? 0,
      reopenedOrders: numberColumn(twice, 'reopened_orders')[0] ?? 0,
    },
  };
}

/** Repairs of miles from a place on, each down to its row. @param limit null: all of them */
export async function mileageRepairList(
  engine: Engine,
  offset: number,
  limit: number | null,
  signal?: AbortSignal,
): Promise<MileageRepair[]> {
  const found = await engine.query(repairsStatement(offset, limit), signal);
  const text = (name: string) => textColumn(found, name);
  const number = (name: string) =>
    Array.from(numberColumn(found, name), (value) => (Number.isNaN(value) ? null : value));
  const [units, tables, days, rules] = [text('unit_id'), text('table'), text('day'), text('rule')];
  const [files, lines, written, used] = [
    number('file_id'),
    number('line'),
    number('miles_written'),
    number('miles_used'),
  ];
  const [least, most] = [number('accepted_from'), number('accepted_to')];
  return units.map((unitId, row) => ({
    ...{ unitId: unitId ?? '', table: tables[row] ?? '', fileId: files[row] ?? 0, line: lines[row] ?? 0 },
    ...{
      day: days[row] ?? '',
      rule: rules[row] as MileageRule,
      written: written[row] ?? null,
      used: used[row] ?? null,
    },
    ...{ acceptedFrom: least[row] ?? null, acceptedTo: most[row] ?? null },
  }));
}
