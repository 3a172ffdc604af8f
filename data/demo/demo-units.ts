import { isoDateOf } from './calendar.ts';
import { drawUnit, type DemoUnit } from './draw-unit.ts';
import { planChecks } from './plan-checks.ts';
import { playAxle } from './play-axle.ts';
import { observedFromDay } from './story.ts';
import { type DemoRows, UnitPapers } from './unit-history.ts';

export interface DemoOptions {
  /** Vehicles; the default is the size that ships. */
  readonly units?: number;
  /** Any whole number; the default is the seed that ships. */
  readonly seed?: number;
}

export const DEFAULT_UNITS = 560;
/** Picked, not drawn: the README beside the shipped files says what it was picked to show. */
export const DEFAULT_SEED = 27;

/**
 * Unit after unit, each from its own random stream; nothing is kept, so a fleet of any size can be
 * streamed, and unit 17 is the same in each.
 * @throws RangeError where units or seed is not a whole number, or units is below 1
 */
export function* demoUnits({ units = DEFAULT_UNITS, seed = DEFAULT_SEED }: DemoOptions = {}): Generator<DemoRows> {
  if (!Number.isSafeInteger(units) || units < 1)
    throw new RangeError(`units must be a whole number of at least 1: ${units}`);
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seed must be a whole number: ${seed}`);
  for (let index = 0; index < units; index++) yield unitHistory(drawUnit(seed, index));
}

/** The rows of one table, lazily: the fleet is played through again for each table asked for. */
export function* demoRows<Table extends keyof DemoRows>(
  table: Table,
  options: DemoOptions = {},
): Generator<DemoRows[Table][number]> {
  for (const history of demoUnits(options)) yield* history[table];
}

function unitHistory(unit: DemoUnit): DemoRows {
  const papers = new UnitPapers(unit);
  const checks = planChecks(unit);
  for (const axle of unit.axles) playAxle(unit, papers, axle, checks);
  writeReadings(unit, papers);
  return papers;
}

const DAYS_BETWEEN_READINGS = 91;

/** A reading at both ends of the stay in the window, and about every quarter between. */
function writeReadings({ random, row, fromDay, toDay, mileage, unitClass }: DemoUnit, papers: UnitPapers): void {
  const hubodometer = unitClass === 'trailer';
  const first = Math.max(fromDay, observedFromDay);
  for (let day = first; ; day = Math.min(toDay, day + DAYS_BETWEEN_READINGS - 10 + random.below(21))) {
    const source = hubodometer ? 'hubodometer' : random.chance(0.3) ? 'telematics' : 'odometer';
    papers.readings.push({ unit_id: row.unit_id, date: isoDateOf(day), miles: mileage.read(day), source });
    if (day >= toDay) return;
  }
}
