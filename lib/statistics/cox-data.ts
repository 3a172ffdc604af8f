import { checkSpans } from './check-spans.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, toCodes, toNumbers, type Category, type Codes, type SurvivalData } from './survival-data.ts';

/** Columns of survival data for one event, checked. */
export interface CheckedSurvival {
  readonly rows: number;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  readonly entry: Float64Array | null;
  readonly weight: Float64Array | null;
  readonly strata: Category | null;
  readonly cluster: Codes | null;
}

/**
 * Checks the columns a proportional hazards function needs.
 *
 * @throws StatisticsError naming the argument and row: no rows, negative exit, exit ≤ entry,
 * event other than 0 and 1, negative weight, wrong length, not a number.
 */
export function checkSurvival(data: SurvivalData): CheckedSurvival {
  const rows = data.exit.length;
  if (rows === 0) throw new StatisticsError('exit', 'has no rows');
  const exit = toNumbers('exit', data.exit, rows);
  const entry = data.entry ? toNumbers('entry', data.entry, rows) : null;
  const weight = data.weight ? toNumbers('weight', data.weight, rows) : null;
  const event = new Uint8Array(rows);
  if (data.event.length !== rows)
    throw new StatisticsError('event', `has ${data.event.length} rows where exit has ${rows}`);
  for (let row = 0; row < rows; row++) {
    const code = data.event[row] as number;
    if (code !== 0 && code !== 1) throw new StatisticsError('event', `is ${code}, not 0 or 1`, row);
    event[row] = code;
  }
  checkSpans(exit, entry, weight);
  const strata = data.strata ? toCategory('strata', data.strata, rows) : null;
  const cluster = data.cluster ? toCodes('cluster', data.cluster, rows) : null;
  return { rows, exit, event, entry, weight, strata, cluster };
}
