import { StatisticsError } from './statistics-error.ts';

/** Refuses a negative exit, an exit not after its entry, and a negative weight; all are finite numbers. */
export function checkSpans(exit: Float64Array, entry: Float64Array | null, weight: Float64Array | null): void {
  for (let row = 0; entry && row < exit.length; row++) {
    const end = exit[row] as number;
    const start = entry[row] as number;
    if (end > start && end >= 0) continue;
    if (end < 0) throw new StatisticsError('exit', `is ${end}, below zero`, row);
    throw new StatisticsError('exit', `is ${end}, not after its entry ${start}`, row);
  }
  if (!entry) refuseNegative('exit', exit);
  if (weight) refuseNegative('weight', weight);
}

function refuseNegative(argument: string, values: Float64Array): void {
  for (let row = 0; row < values.length; row++)
    if ((values[row] as number) < 0) throw new StatisticsError(argument, `is ${values[row]}, below zero`, row);
}
