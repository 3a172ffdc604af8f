import { DataType, RecordBatchReader, Table, tableFromIPC, type RecordBatch, type Vector } from 'apache-arrow';
import type { TableName } from '../../shared/record-tables.ts';
import { decodeArrow } from '../engine/arrow-decode.ts';
import type { ResultColumn } from '../engine/engine.ts';
import type { CellText } from './cell-text.ts';
import { csvLine } from './csv-writing.ts';
import type { CutRow } from './cut-row.ts';
import type { FileRows } from './file-rows.ts';
import { readHeader, type Header } from './header.ts';

type Chunks = AsyncGenerator<Uint8Array, void, undefined>;

/**
 * Reads Arrow IPC, batch by batch where it is a stream, into rows; row 1 is the first. Dates and
 * times become ISO days, booleans yes and no, lists of words `a;b`.
 * @returns why the file cannot be used, or null
 */
export async function readArrowRows(
  chunks: Chunks,
  content: 'arrow-file' | 'arrow-stream',
  table: TableName,
  rowsFor: (header: Header) => FileRows,
): Promise<string | null> {
  let rows: FileRows | null = null;
  let line = 1;
  for await (const batch of content === 'arrow-file' ? batchesOfFile(chunks) : batchesOfStream(chunks)) {
    const names = batch.schema.fields.map(({ name }) => name);
    if (!rows) {
      const header = readHeader(table, names);
      if (typeof header === 'string') return header;
      rows = rowsFor(header);
    }
    const cut = new ArrowRow(names.map((_, index) => cellsOf(batch, index)));
    for (cut.index = 0; cut.index < batch.numRows; cut.index++) {
      rows.row(cut, line++);
      if (rows.full) await rows.send();
    }
  }
  await rows?.finish();
  return null;
}
