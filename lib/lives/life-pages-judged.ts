import { deviationCodes, deviationColumn } from '../../shared/deviations.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';

/** What a life can be judged, in the order of the codes that `judged_before` keeps, from 1. */
export const judgements = ['yes', 'no', 'unknown', 'not-applicable'] as const;
export type Judgement = (typeof judgements)[number];

const columns = deviationCodes.map(deviationColumn);
/** The judgement as its code, of a column of ours and maybe a table's alias. */
const coded = (column: string, table = ''): Statement => ({
  text: `cast(case ${table}"${column}" when 'yes' then 1 when 'no' then 2 when 'unknown' then 3 when 'not-applicable' then 4 else 0 end as utinyint)`,
  values: [],
});
const list = (of: (column: string) => Statement): Statement => joinSql(columns.map(of), ',\n');

/** Lives by installing job as they are judged now, a byte a judgement, to be set against a rebuild. */
export const keepJudgements: Statement = sql`
create or replace table judged_before as
select start_service_id, ${list((column) => sql`${coded(column)} as ${identifier(column)}`)}
from lives_seal where start_service_id is not null`;

export const dropJudgements: Statement = sql`drop table if exists judged_before`;

/** How many seal lives begun by a job are judged each way, a column a deviation and judgement. */
export const judgedStatement: Statement = sql`
select ${joinSql(
  columns.flatMap((column) =>
    judgements.map(
      (word) =>
        sql`cast(count(*) filter (${identifier(column)} = ${word}) as double) as ${identifier(`${column} ${word}`)}`,
    ),
  ),
  ',\n',
)}, cast(count(*) as double) as lives from lives_seal where start_service_id is not null`;

const otherwise = (column: string): Statement => sql`b.${identifier(column)} <> ${coded(column, 'a.')}`;

/** Of the lives that the same job begins before and after, how many are judged otherwise, a column a deviation. */
export const changedStatement: Statement = sql`
select ${list((column) => sql`cast(count(*) filter (${otherwise(column)}) as double) as ${identifier(column)}`)},
  cast(count(*) filter (${joinSql(columns.map(otherwise), ' or ')}) as double) as lives
from lives_seal a join judged_before b on b.start_service_id = a.start_service_id`;

/** Seal lives begun by a job, by the version of the procedure valid that day; a null version: before the first. */
export const versionsStatement: Statement = sql`
select cast(v.version as double) as version, cast(count(*) as double) as lives
from (select install_date from lives_seal where start_service_id is not null) l
asof left join procedure_versions v on l.install_date >= v.valid_from
group by v.version order by v.version`;

/** Seal lives whose evidence of some deviation contradicts itself, by code. */
export const conflictCountsStatement: Statement = sql`
select code, cast(count(*) as double) as lives from (
  select unnest(string_split(conflicting_evidence, ';')) as code from lives_seal where conflicting_evidence is not null)
group by code order by 2 desc, 1`;
