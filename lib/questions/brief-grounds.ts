import type { BriefGrounds } from '../../shared/brief-grounds.ts';
import { numberColumn, textColumn, type ResultTable } from '../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';
import { repairCounts, type LivesSource } from '../lives/index.ts';
import { recordQuality } from './record-quality/index.ts';

const scopeColumns = ['role', 'hub_build', 'lubricant', 'shop', 'duty'] as const;

const valuesOf = (column: string): Statement => sql`
select ${column} as about, coalesce(cast(${identifier(column)} as varchar), 'unknown') as value, cast(count(*) as double) as lives
from lives_seal group by 2`;

/** Every statement, by what it is for. */
export const briefGroundsCatalogue: Readonly<Record<string, Statement>> = {
  totals: sql`
select cast(count(distinct unit_id) as double) as vehicles, cast(count(*) as double) as lives, cast(count(*) filter (state = 'failed') as double) as failures,
  coalesce(sum(exposure_miles), 0) as miles, cast(count(*) filter (entry_miles > 0) as double) as late_entries,
  cast(count(*) filter (not install_known) as double) as unknown_starts,
  cast(count(*) filter (state = 'failed' and (onset_lower_miles is null or onset_lower_miles <= coalesce(entry_miles, 0))) as double) as unchecked,
  cast(min(install_date) as varchar) as first_installed, cast(max(install_date) as varchar) as last_installed
from lives_seal`,
  values: sql`select * from (${joinSql(['state', 'mileage_quality', ...scopeColumns].map(valuesOf), ' union all ')}) order by about, lives desc, value`,
};

function valuesIn(result: ResultTable, column: string): { value: string; lives: number }[] {
  const [about, values, lives] = [
    textColumn(result, 'about'),
    textColumn(result, 'value'),
    numberColumn(result, 'lives'),
  ];
  return about.flatMap((name, row) =>
    name === column ? [{ value: values[row] ?? 'unknown', lives: lives[row] ?? 0 }] : [],
  );
}

async function ofRecords(
  source: LivesSource,
  signal?: AbortSignal,
): Promise<Pick<BriefGrounds, 'tables' | 'fields' | 'repairs' | 'weaknesses'>> {
  if (!source.fromRecords) return { tables: null, fields: null, repairs: null, weaknesses: [] };
  const { tables, fields, effects } = await recordQuality(source, signal);
  const repairs = await repairCounts(source.engine, signal);
  return {
    tables: tables.map(({ reasons, ...table }) => ({ ...table, reasons: [...reasons] })),
    fields: fields.map(({ table, column, filled, rows }) => ({ table, column, filled, rows })),
    repairs: repairs.map(({ rule, rows }) => ({ rule, rows })),
    weaknesses: effects.map(({ weakness, effect }) => ({ weakness, effect })),
  };
}

/** What a brief says of the records behind its findings. */
export async function briefGrounds(source: LivesSource, name: string, signal?: AbortSignal): Promise<BriefGrounds> {
  await source.ensure('seal', signal);
  const totals = await source.engine.query(briefGroundsCatalogue['totals'] as Statement, signal);
  const values = await source.engine.query(briefGroundsCatalogue['values'] as Statement, signal);
  const total = (column: string) => numberColumn(totals, column)[0] ?? 0;
  const { invented, fingerprint, observedFrom, observedTo, procedures = [] } = source.account;
  return {
    ...{ name, invented, fingerprint, observedFrom, observedTo },
    ...{ vehicles: total('vehicles'), lives: total('lives'), failures: total('failures'), miles: total('miles') },
    ...{ lateEntries: total('late_entries'), unknownStarts: total('unknown_starts') },
    failuresUnchecked: total('unchecked'),
    states: valuesIn(values, 'state'),
    mileage: valuesIn(values, 'mileage_quality'),
    scope: Object.fromEntries(scopeColumns.map((column) => [column, valuesIn(values, column)])),
    firstInstalled: textColumn(totals, 'first_installed')[0] ?? null,
    lastInstalled: textColumn(totals, 'last_installed')[0] ?? null,
    procedures: procedures.map((procedure) => ({ ...procedure })),
    ...(await ofRecords(source, signal)),
  };
}
