import { createWriteStream, writeFileSync } from 'node:fs';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { parseArgs } from 'node:util';
import type { ReadReport } from '../../shared/record-set.ts';
import { recordQualityReport } from '../brief/record-quality-report.ts';
import type { Engine } from '../engine/engine.ts';
import { openWorkingEngine } from '../engine/node.ts';
import { livesFromRecords, proceduresOf } from '../lives/index.ts';
import { recordQuality } from '../questions/record-quality/index.ts';
import { readRecords, setAsideCsv } from '../records/index.ts';
import type { Streams } from './call.ts';
import { columnMaps, mapOption, proposeMaps } from './column-maps.ts';
import { needEvents, sayReport } from './open-lives.ts';
import { bytesOf, recordSources } from './record-sources.ts';
import { textTable } from './text-table.ts';

const count = (value: number) => value.toLocaleString('en-US');

/** `hubcause read`: what each file held, what was kept, what was set aside. */
export async function readCommand(parts: string[], streams: Streams): Promise<void> {
  const { values, positionals } = parseArgs({
    args: parts,
    allowPositionals: true,
    options: {
      'set-aside': { type: 'string' },
      report: { type: 'string' },
      'propose-map': { type: 'string' },
      ...mapOption,
    },
  });
  const sources = recordSources(positionals);
  const maps = columnMaps(values.map);
  const proposal = values['propose-map'];
  if (proposal !== undefined) {
    await proposeMaps(sources, maps, proposal, streams);
    return;
  }
  const engine = await openWorkingEngine(bytesOf(sources));
  try {
    const report = await readRecords(engine, sources, { maps });
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
    if (values.report !== undefined) await writeReport(engine, report, values.report);
  } finally {
    await engine.close();
  }
}

/** The data-quality report, judged on the lives that the records give. */
async function writeReport(engine: Engine, report: ReadReport, path: string): Promise<void> {
  const source = await livesFromRecords(engine, report, proceduresOf(report));
  writeFileSync(path, recordQualityReport(await recordQuality(source), report));
}
