import * as words from './vocabulary.ts';

export const tableNames = ['units', 'readings', 'services', 'inspections', 'failures'] as const;
export type TableName = (typeof tableNames)[number];

/**
 * How a cell is read. `date`: ISO day; `list`: words separated by `;` (axle roles also by spaces);
 * `choice`: one of `choices`; `number` and `integer`: a decimal point, no thousands separator.
 */
export type ColumnKind = 'text' | 'date' | 'number' | 'integer' | 'choice' | 'list';

export interface RecordColumn {
  readonly name: string;
  readonly kind: ColumnKind;
  readonly required: boolean;
  /** Closed vocabulary of a choice, or of each word of a list; absent = free text. */
  readonly choices?: readonly string[];
  readonly minimum?: number;
  readonly maximum?: number;
}

const text = (name: string): RecordColumn => ({ name, kind: 'text', required: false });
const date = (name: string): RecordColumn => ({ name, kind: 'date', required: false });
const choice = (name: string, choices: readonly string[]): RecordColumn => ({
  name,
  kind: 'choice',
  required: false,
  choices,
});
const yesNo = (name: string): RecordColumn => choice(name, ['yes', 'no']);
const list = (name: string, choices?: readonly string[]): RecordColumn =>
  choices ? { name, kind: 'list', required: false, choices } : { name, kind: 'list', required: false };
const number = (name: string, minimum: number, maximum: number): RecordColumn => ({
  name,
  kind: 'number',
  required: false,
  minimum,
  maximum,
});
const integer = (name: string, minimum: number, maximum: number): RecordColumn => ({
  ...number(name, minimum, maximum),
  kind: 'integer',
});
const required = (column: RecordColumn): RecordColumn => ({ ...column, required: true });

// Bounds are those of what could be typed by mistake, not of good practice: beyond them the cell cannot be meant.
const miles = (name: string) => number(name, 0, 10_000_000);
const torque = (name: string) => number(name, 0, 2_000);
const endPlay = (name: string) => number(name, 0, 1);
const position = [required(text('unit_id')), required(integer('axle', 1, 20)), required(choice('side', words.sides))];

/** The five tables of the record contract: canonical headers in order, kinds and accepted values. */
export const recordTables: Readonly<Record<TableName, readonly RecordColumn[]>> = {
  units: [
    required(text('unit_id')),
    choice('unit_kind', words.unitKinds),
    required(list('axle_roles', words.roles)),
    choice('acquired', ['new', 'used']),
    date('in_service_date'),
    miles('in_service_miles'),
    date('out_date'),
    miles('out_miles'),
    choice('out_reason', ['sold', 'wrecked', 'transferred']),
    text('duty'),
    text('home_shop'),
    list('former_ids'),
  ],
  readings: [
    required(text('unit_id')),
    required(date('date')),
    required(miles('miles')),
    choice('source', ['odometer', 'hubodometer', 'telematics', 'estimated']),
    choice('event', ['reset', 'replaced']),
    miles('miles_before'),
  ],
  services: [
    required(text('service_id')),
    text('order_id'),
    ...position,
    required(date('date')),
    miles('miles'),
    text('shop'),
    choice('site', words.sites),
    text('technician_key'),
    choice('reason', words.serviceReasons),
    list('replaced', words.partClasses),
    text('seal_lot'),
    choice('hub_build', words.hubBuilds),
    choice('nut_system', words.nutSystems),
    choice('hub_material', words.hubMaterials),
    choice('lubricant', words.lubricants),
    text('lubricant_grade'),
    choice('fill_level', words.fillLevels),
    torque('seating_torque_ftlb'),
    torque('inner_torque_ftlb'),
    torque('outer_torque_ftlb'),
    yesNo('nut_backed_off'),
    endPlay('end_play_in'),
    yesNo('end_play_measured'),
    ...words.steps.map((step) => choice(step, ['done', 'skipped'])),
    list('deviations'),
    yesNo('checklist_complete'),
    text('comment'),
  ],
  inspections: [
    required(text('inspection_id')),
    ...position,
    required(date('date')),
    miles('miles'),
    choice('kind', ['driver', 'pm', 'annual', 'roadside', 'pre-hire']),
    required(yesNo('checked')),
    integer('leak', 0, 3),
    choice('leak_at', ['inboard', 'hubcap', 'flange', 'vent', 'unknown']),
    text('lubricant_level'),
    choice('lubricant_condition', ['clear', 'dark', 'milky', 'metallic']),
    yesNo('lining_contaminated'),
    endPlay('end_play_in'),
  ],
  failures: [
    required(text('failure_id')),
    ...position,
    required(date('date')),
    miles('miles'),
    choice('found_by', ['driver', 'pm', 'annual', 'roadside', 'road-call', 'shop']),
    required(choice('mode', words.failureModes)),
    text('repair_service_id'),
    yesNo('lining_contaminated'),
    yesNo('linings_replaced'),
    yesNo('wheel_lost'),
    choice('wheel_lost_by', ['bearing', 'fastener', 'other']),
    yesNo('out_of_service'),
    number('downtime_hours', 0, 100_000),
    number('cost', 0, 100_000_000),
    list('teardown_deviations'),
    text('comment'),
  ],
};

/** The table a file feeds, from its name: `services-north.csv` feeds services. */
export function tableOfFile(fileName: string): TableName | null {
  const base = fileName.toLowerCase().replace(/^.*[\\/]/, '');
  return tableNames.find((table) => new RegExp(`^${table}([^a-z].*)?$`).test(base)) ?? null;
}
