import { lifeColumns } from '../../shared/lives.ts';
import type { View } from '../../shared/view.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';
import { deviationOf } from './words/group-words.ts';

const numeric = new Set(lifeColumns.filter(({ kind }) => kind === 'number').map(({ name }) => name));

/** A cut column as the text label of its value: whole numbers without a point, null as `unknown`. */
export function labelSql(column: string): Statement {
  const name = identifier(column);
  const text =
    numeric.has(column) || column === 'install_year'
      ? sql`cast(cast(${name} as bigint) as varchar)`
      : sql`cast(${name} as varchar)`;
  return sql`coalesce(${text}, 'unknown')`;
}

/**
 * Columns known only of the job that fitted the part. A comparison by one of them uses replacement
 * lives only: nobody in the fleet fitted the parts a vehicle came with (record contract 5.2).
 */
const ofTheJob = new Set(['shop', 'site', 'technician_key', 'seal_lot']);
export const comparesJobs = (view: View): boolean =>
  view.by.some((column) => ofTheJob.has(column) || deviationOf(column) !== null);

// Null only in an opened lives table that does not tell; records always give a kind.
const replacementOnly = sql`coalesce(install_kind, 'replacement') = 'replacement'`;

function chosen(view: View): Statement[] {
  const conditions = Object.entries(view.where)
    .filter(([, values]) => values !== undefined)
    .map(([column, values]) => {
      const labels = joinSql(
        (values as string[]).map((value) => sql`${value}`),
        ', ',
      );
      return sql`${labelSql(column)} in (${labels})`;
    });
  if (view.installedFrom !== null) conditions.push(sql`install_date >= cast(${view.installedFrom} as date)`);
  if (view.installedTo !== null) conditions.push(sql`install_date <= cast(${view.installedTo} as date)`);
  return conditions;
}

const all = (conditions: readonly Statement[]): Statement =>
  conditions.length === 0 ? sql`true` : joinSql(conditions, ' and ');

/** The condition a life meets to be asked about. */
export const scopeSql = (view: View): Statement =>
  all([...chosen(view), ...(comparesJobs(view) ? [replacementOnly] : []), ...applicable(view)]);

/** The lives the reader chose, before a comparison of jobs leaves any out. */
export const chosenSql = (view: View): Statement => all(chosen(view));

const deviationCuts = (view: View): string[] => view.by.filter((column) => deviationOf(column) !== null);

/** A deviation that cannot exist on a life is no "no": such lives stay out of its comparison, and are counted. */
const applicable = (view: View): Statement[] =>
  deviationCuts(view).map((column) => sql`${labelSql(column)} <> 'not-applicable'`);

/** Lives chosen that a comparison leaves out: not replacements, or where the deviation cannot exist. */
export function leftOutStatement(view: View, table: string): Statement {
  const cannot = deviationCuts(view).map((column) => sql`${labelSql(column)} = 'not-applicable'`);
  const notApplicable = cannot.length === 0 ? sql`false` : joinSql(cannot, ' or ');
  return sql`
select cast(count(*) filter (not fitted) as double) as not_replacement,
  cast(count(*) filter (fitted and never) as double) as not_applicable, cast(count(*) as double) as chosen
from (
  select ${replacementOnly} as fitted, (${notApplicable}) as never
  from ${identifier(table)} where ${chosenSql(view)}
)`;
}
