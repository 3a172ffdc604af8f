import { recordTables, type TableName } from '../../shared/record-tables.ts';
import type { Step } from '../../shared/vocabulary.ts';

/** Rows as the record contract names them; null is a blank: not known. Dates are ISO text. */
export type Cell = string | number | null;

export interface UnitRow {
  unit_id: string;
  unit_kind: string;
  axle_roles: string;
  acquired: string | null;
  in_service_date: string;
  in_service_miles: number;
  out_date: string | null;
  out_miles: number | null;
  out_reason: string | null;
  duty: string;
  home_shop: string;
}

export interface ReadingRow {
  unit_id: string;
  date: string;
  miles: number;
  source: string;
}

/** No vent check is planted, so that column stays out of this fleet's files. */
export type WrittenStep = Exclude<Step, 'step_vent_checked'>;

export interface ServiceRow extends Record<WrittenStep, string | null> {
  service_id: string;
  order_id: string;
  unit_id: string;
  axle: number;
  side: string;
  date: string;
  miles: number | null;
  shop: string;
  site: string;
  technician_key: string | null;
  reason: string | null;
  replaced: string;
  seal_lot: string | null;
  hub_build: string | null;
  nut_system: string | null;
  hub_material: string | null;
  lubricant: string | null;
  lubricant_grade: string | null;
  fill_level: string | null;
  seating_torque_ftlb: number | null;
  inner_torque_ftlb: number | null;
  outer_torque_ftlb: number | null;
  nut_backed_off: string | null;
  end_play_in: number | null;
  end_play_measured: string | null;
  deviations: string | null;
  checklist_complete: string | null;
  comment: string | null;
}

export interface InspectionRow {
  inspection_id: string;
  unit_id: string;
  axle: number;
  side: string;
  date: string;
  miles: number | null;
  kind: string;
  checked: string;
  leak: number | null;
  leak_at: string | null;
  lubricant_level: string | null;
  lubricant_condition: string | null;
  lining_contaminated: string | null;
  end_play_in: number | null;
}

export interface FailureRow {
  failure_id: string;
  unit_id: string;
  axle: number;
  side: string;
  date: string;
  miles: number | null;
  found_by: string;
  mode: string;
  repair_service_id: string | null;
  lining_contaminated: string | null;
  linings_replaced: string | null;
  wheel_lost: string | null;
  wheel_lost_by: string | null;
  out_of_service: string | null;
  downtime_hours: number | null;
  cost: number | null;
  teardown_deviations: string | null;
  comment: string | null;
}

export interface TableRows {
  units: UnitRow;
  readings: ReadingRow;
  services: ServiceRow;
  inspections: InspectionRow;
  failures: FailureRow;
}

const UNFILLED = new Set(['former_ids', 'event', 'miles_before', 'step_vent_checked']);

/** Canonical headers of each table in file order, but for those this fleet never fills. */
export const COLUMNS: { readonly [Table in TableName]: readonly (keyof TableRows[Table] & string)[] } = {
  units: filled('units'),
  readings: filled('readings'),
  services: filled('services'),
  inspections: filled('inspections'),
  failures: filled('failures'),
};

function filled<Table extends TableName>(table: Table): (keyof TableRows[Table] & string)[] {
  const names = recordTables[table].map(({ name }) => name).filter((name) => !UNFILLED.has(name));
  return names as (keyof TableRows[Table] & string)[];
}
