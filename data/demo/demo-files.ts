import { csvLine, csvRow } from './csv-text.ts';
import { type DemoFleet, type DemoOptions, DEFAULT_SEED, DEFAULT_UNITS, demoUnits } from './generate-demo-fleet.ts';
import { plantedTruth } from './planted-truth.ts';
import { COLUMNS, TRUTH_COLUMNS, type TableName } from './rows.ts';
import { OBSERVED_FROM, OBSERVED_TO, SHOPS } from './story.ts';
import type { UnitHistory } from './unit-history.ts';

export interface DemoFile {
  readonly name: string;
  readonly text: string;
}

const TABLES = Object.keys(COLUMNS) as TableName[];

/** The files of a fleet already in memory. */
export function demoFiles(fleet: DemoFleet): DemoFile[] {
  const texts = new Map<string, string>();
  const homes = new Map(fleet.units.map(({ unit_id, home_shop }) => [unit_id, home_shop]));
  const append = (name: string, text: string): void => void texts.set(name, (texts.get(name) ?? '') + text);
  for (const { name, text } of headers()) append(name, text);
  for (const row of fleet.units) append('units.csv', csvRow(row, COLUMNS.units));
  for (const row of fleet.readings) append('readings.csv', csvRow(row, COLUMNS.readings));
  for (const row of fleet.services) append(shopFile('services', row.shop), csvRow(row, COLUMNS.services));
  for (const row of fleet.inspections) append('inspections.csv', csvRow(row, COLUMNS.inspections));
  for (const row of fleet.failures)
    append(shopFile('failures', homes.get(row.unit_id) as string), csvRow(row, COLUMNS.failures));
  for (const life of fleet.truthLives) append('truth-lives.csv', csvRow(life, TRUTH_COLUMNS));
  return [...texts].map(([name, text]) => ({ name, text })).concat(documents(fleet.truth));
}

/** Services are filed by the shop that did the job, failures by the unit's home shop. */
function shopFile(table: 'services' | 'failures', shop: string): string {
  return `${table}-${shop.toLowerCase()}.csv`;
}

function headers(): DemoFile[] {
  const perTable = TABLES.flatMap((table) => {
    const text = csvLine(COLUMNS[table]);
    if (table === 'services') return SHOPS.map((shop) => ({ name: shopFile(table, shop), text }));
    if (table !== 'failures') return [{ name: `${table}.csv`, text }];
    return SHOPS.slice(0, 5).map((shop) => ({ name: shopFile(table, shop), text }));
  });
  return [...perTable, { name: 'truth-lives.csv', text: csvLine(TRUTH_COLUMNS) }];
}

function documents(truth: object): DemoFile[] {
  const recordSet = {
    name: 'Demo fleet (invented)',
    invented: true,
    observedFrom: OBSERVED_FROM,
    observedTo: OBSERVED_TO,
  };
  return [
    { name: 'record-set.json', text: `${JSON.stringify(recordSet, null, 2)}\n` },
    { name: 'truth.json', text: `${JSON.stringify(truth, null, 1)}\n` },
  ];
}

/**
 * The same files for any size of fleet, piece by piece: append each `text` to the file `name`.
 * Never holds more than a few hundred units.
 */
export function* demoFilePieces(options: DemoOptions = {}): Generator<DemoFile> {
  yield* headers();
  let waiting = new Map<string, string>();
  let units = 0;
  for (const history of demoUnits(options)) {
    addUnit(waiting, history);
    if (++units % 256 !== 0) continue;
    for (const [name, text] of waiting) yield { name, text };
    waiting = new Map();
  }
  for (const [name, text] of waiting) yield { name, text };
  yield* documents(plantedTruth({ units: options.units ?? DEFAULT_UNITS, seed: options.seed ?? DEFAULT_SEED }));
}

function addUnit(waiting: Map<string, string>, history: UnitHistory): void {
  const append = (name: string, text: string): void => void waiting.set(name, (waiting.get(name) ?? '') + text);
  append('units.csv', csvRow(history.unit, COLUMNS.units));
  for (const row of history.readings) append('readings.csv', csvRow(row, COLUMNS.readings));
  for (const row of history.services) append(shopFile('services', row.shop), csvRow(row, COLUMNS.services));
  for (const row of history.inspections) append('inspections.csv', csvRow(row, COLUMNS.inspections));
  for (const row of history.failures)
    append(shopFile('failures', history.unit.home_shop), csvRow(row, COLUMNS.failures));
  for (const life of history.lives) append('truth-lives.csv', csvRow(life, TRUTH_COLUMNS));
}
