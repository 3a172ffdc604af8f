import type { CurveRows } from './curve-rows.ts';
import type { LifeRows } from './life-rows.ts';

/** Wheel-end miles and years behind each group's curve; a life that a curve takes up later counts from there on. */
export function watchedByGroup(rows: CurveRows, lives: LifeRows): { miles: Float64Array; years: Float64Array } {
  const [miles, years] = [new Float64Array(rows.group.levels.length), new Float64Array(rows.group.levels.length)];
  for (let row = 0; row < rows.rows; row++) {
    const [group, life] = [rows.group.codes[row] as number, rows.source[row] as number];
    const whole = (lives.exit[life] as number) - (lives.entry[life] as number);
    const share = ((rows.exit[row] as number) - (rows.entry[row] as number)) / whole;
    miles[group] = (miles[group] as number) + share * (lives.exposureMiles[life] as number);
    years[group] = (years[group] as number) + (share * (lives.exposureMonths[life] as number)) / 12;
  }
  return { miles, years };
}
