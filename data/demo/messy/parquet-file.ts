import { parquetFile as fileOf, type ParquetColumn } from '../../../lib/engine/parquet-file.ts';
import type { WrittenFile } from './delimited-file.ts';
import type { Cell, Grid } from './listing.ts';

const dayNumber = (day: string): number => Date.parse(day) / 86_400_000;

/** A column of numbers or of days where all that is filled is such, else of texts. */
function columnOf(header: string, cells: readonly Cell[]): ParquetColumn {
  const filled = cells.filter((cell) => cell !== null);
  if (filled.length > 0 && filled.every((cell) => typeof cell === 'number'))
    return { header, kind: 'number', cells: cells as readonly (number | null)[] };
  if (filled.length > 0 && filled.every((cell) => typeof cell === 'object'))
    return {
      header,
      kind: 'day',
      cells: cells.map((cell) => (typeof cell === 'object' && cell ? dayNumber(cell.day) : null)),
    };
  const texts = cells.map((cell) => (cell === null ? null : typeof cell === 'object' ? cell.day : String(cell)));
  return { header, kind: 'text', cells: texts };
}

/** A grid as a Parquet file. Rows count from 1. */
export function parquetFile({ headers, rows }: Grid): WrittenFile {
  const columns = headers.map((header, at) =>
    columnOf(
      header,
      rows.map(({ cells }) => (cells[at] === '' ? null : (cells[at] ?? null))),
    ),
  );
  return { bytes: fileOf(columns, 'hubcause demo'), lines: rows.map((_, at) => at + 1) };
}
