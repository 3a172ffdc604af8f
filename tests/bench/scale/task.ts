import { createReadStream, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { openWasmEngine } from '../../../lib/engine/wasm-node.ts';
import { livesFromRecords, proceduresOf } from '../../../lib/lives/index.ts';
import { ask } from '../../../lib/questions/index.ts';
import { readRecords } from '../../../lib/records/index.ts';
import { recordTables, tableNames } from '../../../shared/record-tables.ts';
import { viewSchema } from '../../../shared/view.ts';

/** What one engine made of the fleet's files, in a process of its own so that its memory is its own too. */
export interface ScaleRun {
  readonly rows: number;
  readonly lives: number;
  readonly seconds: { readonly reading: number; readonly rebuilding: number; readonly asking: number };
  readonly peakMegabytes: number;
}

/** Of the processor: where the machine does much else, the clock says more of that than of the work. */
const timed = async <Value>(work: () => Promise<Value>): Promise<[Value, number]> => {
  const start = process.cpuUsage();
  const value = await work();
  const { user, system } = process.cpuUsage(start);
  return [value, (user + system) / 1e6];
};

const peakMegabytes = () => Math.round(process.resourceUsage().maxRSS / 1024);

async function ours(engine: Engine, folder: string): Promise<ScaleRun> {
  const names = readdirSync(folder).filter((name) => !name.startsWith('truth') && name !== 'README.md');
  const sources = names.map((name) => ({
    name,
    size: statSync(join(folder, name)).size,
    stream: () => createReadStream(join(folder, name)),
  }));
  const [report, reading] = await timed(() => readRecords(engine, sources));
  const [source, rebuilding] = await timed(async () => {
    const made = await livesFromRecords(engine, report, proceduresOf(report));
    await made.ensure('seal');
    return made;
  });
  const [finding, asking] = await timed(() => ask(source, 'seal-life', viewSchema.parse({ by: ['role'] })));
  return {
    rows: report.files.reduce((sum, { read }) => sum + read, 0),
    lives: finding.data.lives,
    seconds: { reading, rebuilding, asking },
    peakMegabytes: peakMegabytes(),
  };
}

const types = {
  text: 'varchar',
  choice: 'varchar',
  list: 'varchar',
  date: 'date',
  number: 'double',
  integer: 'integer',
};

/** DuckDB's own reader on one thread, told the types and to keep what it rejects: from CSV to tables and no further. */
async function plain(folder: string): Promise<ScaleRun> {
  const instance = await DuckDBInstance.create(':memory:', { threads: '1' });
  const connection = await instance.connect();
  let rows = 0;
  const [, reading] = await timed(async () => {
    for (const table of tableNames) {
      const files = readdirSync(folder).filter((name) => name.startsWith(table) && name.endsWith('.csv'));
      const heads =
        readFileSync(join(folder, files[0] ?? ''), 'utf8')
          .split('\n', 1)[0]
          ?.trim()
          .split(',') ?? [];
      const kinds = new Map(recordTables[table].map(({ name, kind }) => [name, types[kind]]));
      const known = heads.map((name) => `'${name}': '${kinds.get(name) ?? 'varchar'}'`).join(', ');
      const list = files.map((name) => `'${join(folder, name)}'`).join(', ');
      await connection.run(
        `create table ${table} as from read_csv([${list}], types = {${known}}, store_rejects = true)`,
      );
      const [row = []] = (await connection.runAndReadAll(`select count(*)::double from ${table}`)).getRows();
      rows += Number(row[0]);
    }
  });
  return { rows, lives: 0, seconds: { reading, rebuilding: NaN, asking: NaN }, peakMegabytes: peakMegabytes() };
}

const [engineName = '', folder = ''] = process.argv.slice(2);
const run =
  engineName === 'plain'
    ? await plain(folder)
    : await ours(engineName === 'wasm' ? await openWasmEngine() : await openNodeEngine({ threads: 1 }), folder);
process.stdout.write(JSON.stringify(run));
process.exit(0);
