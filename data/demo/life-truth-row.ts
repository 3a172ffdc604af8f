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

/** Columns of truth-lives.csv; role, build, shop and the like are joined from units and services. */
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
