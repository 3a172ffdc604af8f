import { createWriteStream } from 'node:fs';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { parseArgs } from 'node:util';
import { openNodeEngine } from '../engine/node.ts';
import { readRecords, setAsideCsv } from '../records/index.ts';
import type { Streams } from './call.ts';
import { needEvents, sayReport } from './open-lives.ts';
import { recordSources } from './record-sources.ts';
import { textTable } from './text-table.ts';

const count = (value: number) => value.toLocaleString('en-US');

/** `hubcause read`: what each file held, what was kept, what was set aside. */
export async function readCommand(parts: string[], streams: Streams): Promise<void> {
  const { values, positionals } = parseArgs({
    args: parts,
    allowPositionals: true,
    options: { 'set-aside': { type: 'string' } },
  });
  const sources = recordSources(positionals);
  const engine = await openNodeEngine();
  try {
    const report = await readRecords(engine, sources);
    const rows = report.files.map(({ name, table, read, kept, setAside }) => [
      name,
      table ?? '',
      count(read),
      count(kept),
      count(setAside),
    ]);
    streams.out(textTable(['file', 'table', 'read', 'kept', 'set aside'], rows));
    for (const { name, unusedColumns } of report.files)
      if (unusedColumns.length > 0) streams.err(`${name}: columns not used: ${unusedColumns.join(', ')}`);
    sayReport(report, streams);
    const path = values['set-aside'];
    if (path !== undefined) await pipeline(Readable.from(setAsideCsv(engine)), createWriteStream(path));
    needEvents(report);
  } finally {
    await engine.close();
  }
}
