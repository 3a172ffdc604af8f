import { deviations, type Deviation } from '../../shared/deviations.ts';
import { joinSql, sql, type Statement } from '../engine/statement.ts';
import { contradicting } from './deviation-sql.ts';
import { limitColumn } from './procedure-tables.ts';

// Codes and columns below come from the shared vocabulary, never from a user's text.
const plain = (text: string): Statement => ({ text, values: [] });

function conflictsOf(deviation: Deviation): Statement | null {
  const [measured, recorded, step] = contradicting(deviation);
  const { evidence, code } = deviation;
  if ([measured, recorded, step].filter((text) => text !== 'null').length < 2) return null;
  const of = evidence.measured;
  const [least, most] = of ? [limitColumn(of.limit, 'minimum'), limitColumn(of.limit, 'maximum')] : ['null', 'null'];
  return sql`select l.life_id, l.unit_id, l.position, r.service_id, cast(r.date as varchar) as day, ${code} as code,
    ${plain(measured)} as measured, ${plain(recorded)} as recorded, ${plain(step)} as step,
    cast(${plain(of?.column ?? 'null')} as double) as value, cast(${plain(least)} as double) as minimum, cast(${plain(most)} as double) as maximum,
    cast(list_contains(codes, ${code}) as integer) as listed, cast(${plain(evidence.stated?.column ?? 'null')} as varchar) as stated
  from judged r join lives_seal l on l.start_service_id = r.service_id
  where list_contains(string_split(l.conflicting_evidence, ';'), ${code})`;
}

/**
 * Lives whose evidence of a deviation contradicts itself, newest first, each with what every kind of
 * evidence says (yes, no, or nothing) and what it rests on: the value measured and its limits,
 * whether the code is listed, and what the column of its own states.
 */
export const conflictsStatement = (offset: number, limit: number): Statement => sql`
with judged as (select *, string_split(coalesce(deviations, ''), ';') as codes from work_renewals_seal where nth = 1)
select * from (${joinSql(
  deviations.flatMap((deviation) => conflictsOf(deviation) ?? []),
  '\nunion all ',
)}) order by day desc, life_id, code limit ${limit}::bigint offset ${offset}::bigint`;
