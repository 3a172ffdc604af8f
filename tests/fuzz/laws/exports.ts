import { parse } from 'csv-parse/sync';
import type { Engine } from '../../../lib/engine/engine.ts';
import { recordQualityReport } from '../../../lib/brief/record-quality-report.ts';
import { livesFromRecords, proceduresOf } from '../../../lib/lives/index.ts';
import { recordQuality } from '../../../lib/questions/record-quality/index.ts';
import { setAsideCsv } from '../../../lib/records/index.ts';
import type { CaseRead } from './read-case.ts';

/** Rows set aside leave whole: each with the text it had. */
export async function* exportLaw(engine: Engine, { aside }: CaseRead): AsyncGenerator<string> {
  const pieces: string[] = [];
  for await (const piece of setAsideCsv(engine)) pieces.push(piece);
  const rows: string[][] = parse(pieces.join(''));
  if (rows.length !== aside.length + 1) yield `${rows.length - 1} of ${aside.length} rows set aside were exported`;
  const given = (cell = '') => cell.replace(/^'(?='*[=+\-@\t\r])/, '');
  for (const [at, row] of aside.entries()) {
    const written = rows[at + 1] ?? [];
    if (given(written[6]) !== row.original || given(written[3]) !== row.value || Number(written[1]) !== row.row)
      yield `${row.file}, row ${row.row} was exported otherwise than it stood: ${JSON.stringify(written).slice(0, 300)}`;
  }
}

/** Lives can be made of whatever was kept, and the report on it opens as text. */
export async function* rebuildLaw(engine: Engine, { report }: CaseRead): AsyncGenerator<string> {
  const lives = await livesFromRecords(engine, report, proceduresOf(report));
  await lives.ensure('seal');
  const page = recordQualityReport(await recordQuality(lives), report);
  const found = /<(script|img|svg|iframe|textarea)\b[^>]*>/i.exec(page);
  if (found) yield `the report holds markup of a record: ${found[0]}`;
}
