import { deviationCodes, deviationColumn } from './deviations.ts';

export type LifeColumnKind = 'text' | 'number' | 'date';

const columns = (kind: LifeColumnKind, names: readonly string[]) => names.map((name) => ({ name, kind }));

/** The lives table, in order: the contract with anything that builds or reads lives elsewhere. */
export const lifeColumns: readonly { readonly name: string; readonly kind: LifeColumnKind }[] = [
  ...columns('text', ['life_id', 'unit_id']),
  ...columns('number', [
    'install_miles',
    'entry_miles',
    'exit_miles',
    'exposure_miles',
    'onset_lower_miles',
    'onset_upper_miles',
  ]),
  ...columns('text', ['state', 'mode', 'component']),
  ...columns('number', ['axle']),
  ...columns('text', ['side', 'role', 'shop', 'site', 'lubricant', 'hub_build', 'hub_material', 'seal_lot', 'duty']),
  ...columns('date', ['install_date']),
  ...columns('text', ['install_kind']),
  ...columns('number', ['life_number', 'prior_failures']),
  ...columns('text', ['technician_key', 'mileage_quality', 'mate_life_id', 'start_service_id', 'end_id']),
  ...columns('text', deviationCodes.map(deviationColumn)),
];

/**
 * What the rebuild adds to the contract's columns, and an opened lives table may lack. Months are days
 * since installation by 30.4375; `exposure_months` is filled for every life, as `exposure_miles` is.
 */
export const addedLifeColumns: typeof lifeColumns = [
  ...columns('text', ['inferred', 'lining_contaminated']),
  ...columns('number', ['entry_months', 'exit_months', 'exposure_months', 'onset_lower_months', 'onset_upper_months']),
];

/** Attributes a comparison may be cut or filtered by, as `lives` columns; the last three are derived. */
export const cutColumns: readonly string[] = [
  'role',
  'axle',
  'side',
  'shop',
  'site',
  'lubricant',
  'hub_build',
  'hub_material',
  'seal_lot',
  'duty',
  'install_kind',
  'life_number',
  'prior_failures',
  'technician_key',
  'mileage_quality',
  ...deviationCodes.map(deviationColumn),
  'position',
  'install_year',
  'unit_id',
];

/**
 * Cut columns known only of the job that fitted the part. A comparison of jobs uses replacement lives
 * only: nobody in the fleet fitted the parts a vehicle came with (record contract 5.2).
 */
export const jobColumns: ReadonlySet<string> = new Set([
  'shop',
  'site',
  'technician_key',
  'seal_lot',
  ...deviationCodes.map(deviationColumn),
]);
