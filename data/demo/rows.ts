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

export const STEPS = [
  'step_cavity_cleaned',
  'step_seal_tool_used',
  'step_seal_seated',
  'step_spacer_fitted',
  'step_spacer_oriented',
  'step_hub_supported',
  'step_lock_engaged',
  'step_outer_nut_torqued',
  'step_gasket_new',
  'step_lubricant_matched',
  'step_fill_checked',
  'step_spindle_dressed',
  'step_mark_fitted',
] as const;
export type Step = (typeof STEPS)[number];

export interface ServiceRow extends Record<Step, string | null> {
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

/**
 * What really happened in one installed seal life, known or not to the records. Ages are miles since
 * installation; `onset_age` is the first detectable leak had the seal stayed in, even if it was renewed
 * or the records end before. `exit_age` and `end` are as the records can show them at best.
 */
export interface LifeTruth {
  unit_id: string;
  axle: number;
  side: string;
  install_date: string;
  install_miles: number;
  start: 'original' | 'replacement' | 'unknown';
  start_service_id: string | null;
  role: string;
  duty: string;
  shop: string | null;
  hub_build: string;
  lubricant: string;
  seal_lot: string | null;
  deviations: string;
  cause: string;
  onset_age: number;
  entry_age: number;
  exit_age: number;
  end: LifeEnd;
  failure_id: string | null;
}
export type LifeEnd =
  'failed' | 'planned' | 'mate' | 'other-failure' | 'removed-unknown' | 'unit-left' | 'running' | 'before-window';

export interface TableRows {
  units: UnitRow;
  readings: ReadingRow;
  services: ServiceRow;
  inspections: InspectionRow;
  failures: FailureRow;
}
export type TableName = keyof TableRows;

/** Canonical headers of each table in file order; only columns this fleet fills. */
export const COLUMNS: { readonly [T in TableName]: readonly (keyof TableRows[T] & string)[] } = {
  units: [
    'unit_id',
    'unit_kind',
    'axle_roles',
    'acquired',
    'in_service_date',
    'in_service_miles',
    'out_date',
    'out_miles',
    'out_reason',
    'duty',
    'home_shop',
  ],
  readings: ['unit_id', 'date', 'miles', 'source'],
  services: [
    'service_id',
    'order_id',
    'unit_id',
    'axle',
    'side',
    'date',
    'miles',
    'shop',
    'site',
    'technician_key',
    'reason',
    'replaced',
    'seal_lot',
    'hub_build',
    'nut_system',
    'hub_material',
    'lubricant',
    'lubricant_grade',
    'fill_level',
    'seating_torque_ftlb',
    'inner_torque_ftlb',
    'outer_torque_ftlb',
    'nut_backed_off',
    'end_play_in',
    'end_play_measured',
    ...STEPS,
    'deviations',
    'checklist_complete',
    'comment',
  ],
  inspections: [
    'inspection_id',
    'unit_id',
    'axle',
    'side',
    'date',
    'miles',
    'kind',
    'checked',
    'leak',
    'leak_at',
    'lubricant_level',
    'lubricant_condition',
    'lining_contaminated',
    'end_play_in',
  ],
  failures: [
    'failure_id',
    'unit_id',
    'axle',
    'side',
    'date',
    'miles',
    'found_by',
    'mode',
    'repair_service_id',
    'lining_contaminated',
    'linings_replaced',
    'wheel_lost',
    'wheel_lost_by',
    'out_of_service',
    'downtime_hours',
    'cost',
    'teardown_deviations',
    'comment',
  ],
};

export const TRUTH_COLUMNS: readonly (keyof LifeTruth)[] = [
  'unit_id',
  'axle',
  'side',
  'install_date',
  'install_miles',
  'start',
  'start_service_id',
  'deviations',
  'cause',
  'onset_age',
  'entry_age',
  'exit_age',
  'end',
  'failure_id',
];
