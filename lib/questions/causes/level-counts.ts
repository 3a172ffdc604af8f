import type { Estimate } from '../../../shared/finding.ts';
import type { Axis } from '../../../shared/view.ts';
import { eventRate } from '../../statistics/index.ts';
import { placesWhere } from '../gather.ts';
import { rateEstimate } from '../rates.ts';
import type { ComparedLives } from './compared-lives.ts';
import type { Exposure } from './exposure.ts';

/** What is counted of each level of an exposure, by level. */
export interface LevelCounts {
  readonly lives: Float64Array;
  readonly failures: Float64Array;
  readonly miles: Float64Array;
  readonly vehicles: Float64Array;
  /** Failures and what was watched, in what the axis counts, by level and vehicle. */
  readonly byVehicle: { readonly failures: Float64Array; readonly watched: Float64Array; readonly count: number };
}

export function levelCounts({ lives }: ComparedLives, codes: Int32Array, { levels }: Exposure): LevelCounts {
  const column = () => new Float64Array(levels.length);
  const counts = { lives: column(), failures: column(), miles: column(), vehicles: column() };
  const add = (sum: Float64Array, at: number, value: number) => (sum[at] = (sum[at] as number) + value);
  const count = lives.cluster.levels.length;
  const [failures, watched] = [new Float64Array(levels.length * count), new Float64Array(levels.length * count)];
  for (let at = 0; at < codes.length; at++) {
    const level = codes[at] as number;
    add(counts.lives, level, 1);
    add(counts.failures, level, lives.event[at] as number);
    add(counts.miles, level, lives.miles[at] as number);
    const place = level * count + (lives.cluster.codes[at] as number);
    if (watched[place] === 0) add(counts.vehicles, level, 1);
    add(failures, place, lives.event[at] as number);
    add(watched, place, (lives.exit[at] as number) - (lives.entry[at] as number));
  }
  return { ...counts, byVehicle: { failures, watched, count } };
}

/** Failures of a level by what was watched of it, exact, with limits that allow for vehicles beside. */
export function levelRate({ byVehicle }: LevelCounts, level: number, confidence: number, axis: Axis): Estimate {
  const from = level * byVehicle.count;
  const own = placesWhere(byVehicle.count, (vehicle) => (byVehicle.watched[from + vehicle] as number) > 0);
  if (own.length === 0) return rateEstimate(null, confidence, axis);
  const pick = (column: Float64Array) => Float64Array.from(own, (vehicle) => column[from + vehicle] as number);
  const data = { events: pick(byVehicle.failures), exposure: pick(byVehicle.watched), cluster: own };
  return rateEstimate(eventRate(data, { level: confidence }), confidence, axis);
}
