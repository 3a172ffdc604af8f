import { deviationColumn, deviations, type Deviation } from '../../shared/deviations.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { limitColumn, partsAsked, requiresColumn } from './procedure-tables.ts';

// Codes, columns and words below come from the shared vocabulary, never from a user's text.
const words = (values: readonly string[]) => `(${values.map((value) => `'${value}'`).join(', ')})`;

/** SQL text: true where the deviation can exist, false where it cannot, null where the record does not tell. */
function applies({ scope }: Deviation): string {
  const tests = [
    ...(scope.hubBuilds ? [`hub_build in ${words(scope.hubBuilds)}`] : []),
    ...(scope.nutSystem ? [`nut_system = '${scope.nutSystem}'`] : []),
    ...(scope.lubricant ? [`lubricant = '${scope.lubricant}'`] : []),
  ];
  return tests.length === 0 ? 'true' : `(${tests.join(' and ')})`;
}

function measured({ evidence }: Deviation): string {
  if (!evidence.measured) return 'null';
  const { column, limit, outside } = evidence.measured;
  const below = `${column} < ${limitColumn(limit, 'minimum')}`;
  const above = `${column} > ${limitColumn(limit, 'maximum')}`;
  const out =
    outside === 'either'
      ? `coalesce(${below}, false) or coalesce(${above}, false)`
      : outside === 'above'
        ? above
        : below;
  const known =
    outside === 'either'
      ? `coalesce(${limitColumn(limit, 'minimum')}, ${limitColumn(limit, 'maximum')}) is not null`
      : `${limitColumn(limit, outside === 'above' ? 'maximum' : 'minimum')} is not null`;
  // A zero end play is a reading only where it was measured; elsewhere it is how shops write "not taken".
  const reading = column === 'end_play_in' ? `and (${column} <> 0 or coalesce(end_play_measured = 'yes', false))` : '';
  return `case when ${column} is not null ${reading} and ${known} then case when ${out} then 'yes' else 'no' end end`;
}

const recorded = ({ code, evidence }: Deviation): string => {
  const stated = evidence.stated;
  const listed = `list_contains(codes, '${code}')`;
  if (!stated) return `case when ${listed} then 'yes' end`;
  return `case when ${listed} or ${stated.column} = '${stated.yes}' then 'yes' when ${stated.column} is not null then 'no' end`;
};

const step = ({ evidence }: Deviation): string =>
  evidence.step ? `case ${evidence.step} when 'skipped' then 'yes' when 'done' then 'no' end` : 'null';

const checklist = `case when checklist_complete = 'yes' then 'no' end`;

/** A part absent from a filled list deviates where it is required, and only at shops that list it on most such jobs. */
const parts = ({ evidence }: Deviation): string =>
  evidence.part
    ? `case when list_contains(parts, '${evidence.part}') then 'no'
        when replaced is not null and ${requiresColumn(evidence.part)} = 1 and shop_lists_${evidence.part} then 'yes' end`
    : 'null';

/** Evidence in its order: measured, recorded, step, complete checklist, parts. */
const evidenceOf = (deviation: Deviation): readonly string[] => [
  ...contradicting(deviation),
  checklist,
  parts(deviation),
];

/** The evidence that can contradict itself, as SQL texts of yes, no or null: measured, recorded, step. */
export const contradicting = (deviation: Deviation): readonly [measured: string, recorded: string, step: string] => [
  measured(deviation),
  recorded(deviation),
  step(deviation),
];

function valueOf(deviation: Deviation): string {
  const test = applies(deviation);
  return `case when not ${test} then 'not-applicable' when ${test} then coalesce(${evidenceOf(deviation).join(', ')}, 'unknown') else 'unknown' end as ${deviationColumn(deviation.code)}`;
}

/** SQL text: the code where measured, recorded and step evidence contradict each other; nulls are passed over. */
function conflictOf(deviation: Deviation): string {
  const said = contradicting(deviation).filter((text) => text !== 'null');
  if (said.length < 2) return 'null';
  return `case when ${applies(deviation)} and least(${said.join(', ')}) <> greatest(${said.join(', ')}) then '${deviation.code}' end`;
}

/** Shops that list a part on most of their jobs with the hub off for which the procedure requires it. */
export const shopHabits: Statement = {
  text: `create or replace table work_shop_habits as select shop, ${partsAsked
    .map((part) => {
      const listed = `avg(case when list_contains(parts, '${part}') then 1.0 else 0.0 end)`;
      return `coalesce(${listed} filter (${requiresColumn(part)} = 1) > 0.5, false) as shop_lists_${part}`;
    })
    .join(', ')} from work_judged_services
    where replaced is not null and shop is not null and list_has_any(parts, ['seal', 'bearings', 'spacer', 'hub']) group by shop`,
  values: [],
};

/**
 * Each renewal's value for every deviation: yes, no, unknown or not-applicable (record contract,
 * section 4), and in `conflicting_evidence` the codes whose evidence contradicts itself, joined by `;`.
 */
export const renewalDeviations = (component: string): Statement => {
  const jobs = sql`select r.*, string_split(coalesce(r.deviations, ''), ';') as codes, h.* exclude (shop)
    from ${identifier(`work_renewals_${component}`)} r left join work_shop_habits h on h.shop = r.shop where nth = 1`;
  return sql`create or replace table ${identifier(`work_deviations_${component}`)} as
    select service_id, wheel_end, ${{ text: deviations.map(valueOf).join(',\n'), values: [] }},
    nullif(concat_ws(';', ${{ text: deviations.map(conflictOf).join(', '), values: [] }}), '') as conflicting_evidence from (${jobs})`;
};
