import { csvLine, csvRow } from './csv-text.ts';
import { demoReadme } from './demo-readme.ts';
import { type DemoOptions, DEFAULT_SEED, DEFAULT_UNITS, demoUnits } from './demo-units.ts';
import type { DemoFleet } from './generate-demo-fleet.ts';
import { TRUTH_COLUMNS } from './life-truth-row.ts';
import { plantedTruth } from './planted-truth.ts';
import { COLUMNS } from './rows.ts';
import { OBSERVED_FROM, OBSERVED_TO, SHOPS } from './story.ts';
import type { DemoRows } from './unit-history.ts';

/** A file, or the next piece of one: append pieces of the same name in order. */
export interface DemoFile {
  readonly name: string;
  readonly text: string;
}

/** All files of a fleet in memory: tables as CSV, record-set.json, the planted truth and a README. */
export function demoFiles(fleet: DemoFleet): DemoFile[] {
  const texts = new FileTexts();
  for (const { name, text } of headers()) texts.append(name, text);
  texts.appendRows(fleet);
  return [...texts.take(), ...documents(fleet.truth)];
}

const UNITS_PER_PIECE = 128;

/** The same files for a fleet of any size, piece by piece; holds a few hundred units at most. */
export function* demoFilePieces(options: DemoOptions = {}): Generator<DemoFile> {
  yield* headers();
  const texts = new FileTexts();
  let units = 0;
  for (const history of demoUnits(options)) {
    texts.appendRows(history);
    if (++units % UNITS_PER_PIECE === 0) yield* texts.take();
  }
  yield* texts.take();
  yield* documents(plantedTruth({ units: options.units ?? DEFAULT_UNITS, seed: options.seed ?? DEFAULT_SEED }));
}

class FileTexts {
  private lines = new Map<string, string[]>();

  append(name: string, text: string): void {
    const lines = this.lines.get(name);
    if (lines) lines.push(text);
    else this.lines.set(name, [text]);
  }

  /** Services are filed by the shop that did the job, failures by the unit's home shop. */
  appendRows(rows: DemoRows): void {
    const homes = new Map(rows.units.map(({ unit_id, home_shop }) => [unit_id, home_shop]));
    for (const row of rows.units) this.append('units.csv', csvRow(row, COLUMNS.units));
    for (const row of rows.readings) this.append('readings.csv', csvRow(row, COLUMNS.readings));
    for (const row of rows.services) this.append(shopFile('services', row.shop), csvRow(row, COLUMNS.services));
    for (const row of rows.inspections) this.append('inspections.csv', csvRow(row, COLUMNS.inspections));
    for (const row of rows.failures)
      this.append(shopFile('failures', homes.get(row.unit_id) as string), csvRow(row, COLUMNS.failures));
    for (const life of rows.truthLives) this.append('truth-lives.csv', csvRow(life, TRUTH_COLUMNS));
  }

  take(): DemoFile[] {
    const files = [...this.lines].map(([name, lines]) => ({ name, text: lines.join('') }));
    this.lines = new Map();
    return files;
  }
}

function shopFile(table: 'services' | 'failures', shop: string): string {
  return `${table}-${shop.toLowerCase()}.csv`;
}

function headers(): DemoFile[] {
  const perShop = (table: 'services' | 'failures', shops: readonly string[]): DemoFile[] =>
    shops.map((shop) => ({ name: shopFile(table, shop), text: csvLine(COLUMNS[table]) }));
  return [
    { name: 'units.csv', text: csvLine(COLUMNS.units) },
    { name: 'readings.csv', text: csvLine(COLUMNS.readings) },
    ...perShop('services', SHOPS),
    { name: 'inspections.csv', text: csvLine(COLUMNS.inspections) },
    ...perShop(
      'failures',
      SHOPS.filter((shop) => shop !== 'Outside'),
    ),
    { name: 'truth-lives.csv', text: csvLine(TRUTH_COLUMNS) },
  ];
}

function documents(truth: { units: number; seed: number }): DemoFile[] {
  const window = { observedFrom: OBSERVED_FROM, observedTo: OBSERVED_TO };
  const recordSet = { name: 'Demo fleet (invented)', invented: true, ...window };
  return [
    { name: 'record-set.json', text: `${JSON.stringify(recordSet, null, 2)}\n` },
    { name: 'truth.json', text: `${JSON.stringify(truth, null, 1)}\n` },
    { name: 'README.md', text: demoReadme(truth) },
  ];
}
