import { demoUnits, type DemoOptions, DEFAULT_SEED, DEFAULT_UNITS } from './demo-units.ts';
import { type PlantedTruth, plantedTruth } from './planted-truth.ts';
import { OBSERVED_FROM, OBSERVED_TO } from './story.ts';
import type { DemoRows } from './unit-history.ts';

/** An invented fleet in memory, with the window it was observed in and everything planted in it. */
export interface DemoFleet extends DemoRows {
  readonly observedFrom: string;
  readonly observedTo: string;
  readonly truth: PlantedTruth;
}

/** The whole fleet at once; pure: the same options give the same rows. For large fleets see `demoRows`. */
export function generateDemoFleet(options: DemoOptions = {}): DemoFleet {
  const rows: DemoRows = { units: [], readings: [], services: [], inspections: [], failures: [], truthLives: [] };
  for (const history of demoUnits(options)) addRows(rows, history);
  const { units = DEFAULT_UNITS, seed = DEFAULT_SEED } = options;
  return { ...rows, observedFrom: OBSERVED_FROM, observedTo: OBSERVED_TO, truth: plantedTruth({ units, seed }) };
}

function addRows(to: DemoRows, from: DemoRows): void {
  // One by one: spreading a large array into push overflows the stack.
  for (const table of Object.keys(to) as (keyof DemoRows)[])
    for (const row of from[table]) (to[table] as (typeof row)[]).push(row);
}
