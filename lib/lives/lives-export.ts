import { addedLifeColumns, lifeColumns } from '../../shared/lives.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';

/** The contract's columns and those the rebuild adds; days as ISO text where a file takes numbers and text only. */
export const exportColumns = (plainDates: boolean): Statement =>
  joinSql(
    [...lifeColumns, ...addedLifeColumns].map(({ name, kind }) =>
      kind === 'date' && plainDates
        ? sql`cast(${identifier(name)} as varchar) as ${identifier(name)}`
        : sql`${identifier(name)}`,
    ),
    ', ',
  );

/**
 * The lives of every component, which all must have been made, as one table for other systems. In the
 * order of the tables: what is dealt out at random over them is dealt out alike where they are opened again.
 */
export const allLivesStatement = (plainDates: boolean): Statement => {
  const tables = (Object.keys(components) as Component[]).map(
    (component, nth) =>
      sql`select ${exportColumns(plainDates)}, cast(${nth} as integer) as nth, rowid as place from ${identifier(`lives_${component}`)}`,
  );
  return sql`select * exclude (nth, place) from (${joinSql(tables, ' union all ')}) order by nth, place`;
};

/** Failure episodes as an opened lives table takes them: those that met no life are told by nothing else. */
export const episodesStatement: Statement = sql`
select episode_id, unit_id, axle, side, component, mode, cast(date as varchar) as date, miles, life_id, lining_contaminated, wheel_lost,
  if(inferred, 'yes', 'no') as inferred from episodes order by episode_id`;
