import { isoDateOf } from './calendar.ts';
import { drawUnit, type DemoUnit } from './draw-unit.ts';
import { planChecks } from './plan-checks.ts';
import { playAxle } from './play-axle.ts';
import type { FailureRow, InspectionRow, LifeTruth, ReadingRow, ServiceRow, UnitRow } from './rows.ts';
import { OBSERVED_FROM, OBSERVED_TO, observedFromDay } from './story.ts';
import { plantedTruth, type PlantedTruth } from './planted-truth.ts';
import { type UnitHistory, UnitPapers } from './unit-history.ts';

export interface DemoOptions {
  /** Vehicles; default 560, the size that ships. */
  readonly units?: number;
  /** Any whole number; default the seed that ships. */
  readonly seed?: number;
}

/** An invented fleet: plain rows by table with canonical headers, and the truth behind them. */
export interface DemoFleet {
  readonly units: UnitRow[];
  readonly readings: ReadingRow[];
  readonly services: ServiceRow[];
  readonly inspections: InspectionRow[];
  readonly failures: FailureRow[];
  readonly observedFrom: string;
  readonly observedTo: string;
  readonly truth: PlantedTruth;
  readonly truthLives: LifeTruth[];
}

export const DEFAULT_UNITS = 560;
/** Picked, not drawn: see data/README.md for what it was picked to show. */
export const DEFAULT_SEED = 27;

/** Unit after unit, each from its own random stream; nothing is kept, so any size can be streamed. */
export function* demoUnits({ units = DEFAULT_UNITS, seed = DEFAULT_SEED }: DemoOptions = {}): Generator<UnitHistory> {
  if (!Number.isInteger(units) || units < 1)
    throw new RangeError(`units must be a whole number of at least 1: ${units}`);
  if (!Number.isInteger(seed)) throw new RangeError(`seed must be a whole number: ${seed}`);
  for (let index = 0; index < units; index++) yield unitHistory(drawUnit(seed, index));
}

function unitHistory(unit: DemoUnit): UnitHistory {
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

/** The whole fleet in memory; pure: the same options give the same rows. */
export function generateDemoFleet(options: DemoOptions = {}): DemoFleet {
  const fleet: DemoFleet = {
    units: [],
    readings: [],
    services: [],
    inspections: [],
    failures: [],
    observedFrom: OBSERVED_FROM,
    observedTo: OBSERVED_TO,
    truth: plantedTruth({ units: options.units ?? DEFAULT_UNITS, seed: options.seed ?? DEFAULT_SEED }),
    truthLives: [],
  };
  for (const history of demoUnits(options)) {
    fleet.units.push(history.unit);
    for (const row of history.readings) fleet.readings.push(row);
    for (const row of history.services) fleet.services.push(row);
    for (const row of history.inspections) fleet.inspections.push(row);
    for (const row of history.failures) fleet.failures.push(row);
    for (const life of history.lives) fleet.truthLives.push(life);
  }
  return fleet;
}
