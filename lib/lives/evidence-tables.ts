import { limitNames } from '../../shared/procedure.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';

type Kind = 'text' | 'number' | 'integer' | 'date' | 'flag';

/** A table of the rebuild that questions read beside lives and episodes, with what they read of it. */
export interface EvidenceTable {
  readonly table: string;
  /** Its file beside a brief's lives, without its ending. */
  readonly file: string;
  readonly columns: Readonly<Record<string, Kind>>;
}

const componentNames = Object.keys(components) as Component[];
const limits = limitNames.flatMap((name) => [`${name}_minimum`, `${name}_maximum`]);
const numbers = (names: readonly string[]) => Object.fromEntries(names.map((name) => [name, 'number' as const]));

export const evidenceTables: readonly EvidenceTable[] = [
  {
    ...{ table: 'work_placed_inspections', file: 'inspections' },
    columns: {
      ...{ wheel_end: 'integer', at_miles: 'number', date: 'date', checked: 'text', leak: 'integer', leak_at: 'text' },
    },
  },
  {
    ...{ table: 'work_placed_failures', file: 'failures' },
    columns: {
      ...{ failure_id: 'text', unit_id: 'text', axle: 'integer', side: 'text', wheel_end: 'integer', date: 'date' },
      ...{ mode: 'text', wheel_lost: 'text', wheel_lost_by: 'text', out_of_service: 'text', at_miles: 'number' },
      ...{ by_fastener: 'flag', in_window: 'flag' },
    },
  },
  {
    ...{ table: 'work_slotted_seal', file: 'failures-by-life' },
    columns: { failure_id: 'text', wheel_end: 'integer', slot: 'integer' },
  },
  { ...{ table: 'fleet_failures', file: 'found-by' }, columns: { failure_id: 'text', found_by: 'text' } },
  { ...{ table: 'fleet_units', file: 'home-shops' }, columns: { unit_id: 'text', home_shop: 'text' } },
  { ...{ table: 'failures', file: 'teardowns' }, columns: { failure_id: 'text', teardown_deviations: 'text' } },
  {
    ...{ table: 'work_mile_points', file: 'miles' },
    columns: { unit_id: 'text', day: 'date', low_miles: 'number', high_miles: 'number' },
  },
  ...componentNames.flatMap((component): EvidenceTable[] => [
    {
      ...{ table: `work_renewals_${component}`, file: `measurements-${component}` },
      columns: {
        ...{ service_id: 'text', wheel_end: 'integer', nut_system: 'text', hub_build: 'text' },
        ...{
          inner_torque_ftlb: 'number',
          outer_torque_ftlb: 'number',
          end_play_in: 'number',
          end_play_measured: 'text',
        },
        ...numbers(limits),
      },
    },
    {
      ...{ table: `work_renewal_states_${component}`, file: `renewals-${component}` },
      columns: {
        ...{ wheel_end: 'integer', ordinal: 'integer', mate_failed_by_row: 'flag', mate_failed_by_order: 'flag' },
      },
    },
  ]),
  {
    ...{ table: 'procedure_parts', file: 'procedure' },
    columns: {
      ...{ version: 'number', hub_build: 'text', role: 'text', service_interval_miles: 'number' },
      ...numbers(componentNames.map((component) => `renews_${component}`)),
    },
  },
  {
    ...{ table: 'procedure_versions', file: 'procedure-versions' },
    columns: { version: 'number', valid_from: 'date' },
  },
];

/** Where each life stands among the records: what ties the other tables to it. */
const placed: EvidenceTable['columns'] = {
  ...{ life_id: 'text', component: 'text', wheel_end: 'integer', slot: 'integer', install_known: 'flag' },
  ...{ observed_from_miles: 'number', observed_to_miles: 'number' },
};
export const placesFile = 'places';

/** As files take it: numbers and text; days in ISO form, and a flag that is not known stays blank. */
const written = (columns: EvidenceTable['columns']): Statement =>
  joinSql(
    Object.entries(columns).map(([name, kind]) => {
      const column = identifier(name);
      if (kind === 'flag') return sql`case when ${column} then 'yes' when not ${column} then 'no' end as ${column}`;
      return sql`cast(${column} as ${kind === 'text' || kind === 'date' ? sql`varchar` : sql`double`}) as ${column}`;
    }),
    ', ',
  );

const types = { text: sql`varchar`, number: sql`double`, integer: sql`bigint`, date: sql`date` } as const;

const read = (columns: EvidenceTable['columns']): Statement =>
  joinSql(
    Object.entries(columns).map(([name, kind]) => {
      const column = identifier(name);
      return kind === 'flag'
        ? sql`${column} = 'yes' as ${column}`
        : sql`cast(${column} as ${types[kind]}) as ${column}`;
    }),
    ', ',
  );

export const evidenceStatement = ({ table, columns }: EvidenceTable): Statement =>
  sql`select ${written(columns)} from ${identifier(table)}`;

export const placesStatement: Statement = joinSql(
  componentNames.map((component) => sql`select ${written(placed)} from ${identifier(`lives_${component}`)}`),
  ' union all ',
);

/** Makes the table that questions read of one that was opened from its file. */
export const readEvidence = ({ table, columns }: EvidenceTable, opened: string): Statement =>
  sql`create or replace table ${identifier(table)} as select ${read(columns)} from ${identifier(opened)}`;

/** Lives of one component as they were opened, in their order, with where each stands. */
export const placedLives = (component: Component, opened: string): Statement => sql`
create or replace table ${identifier(`lives_${component}`)} as
select l.* exclude (install_known), p.install_known, p.wheel_end, p.slot, p.observed_from_miles, p.observed_to_miles
from work_opened_lives l left join (select ${read(placed)} from ${identifier(opened)}) p on p.life_id = l.life_id and p.component = l.component
where l.component = ${component} order by l.rowid`;
