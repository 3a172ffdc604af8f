import { comma, delimiters } from './characters.ts';
import { CsvReader } from './csv-reader.ts';
import { topRows } from './header-row.ts';

/** A first line by which some programs tell theirs. */
const told = /^\uFEFF?"?sep=(.)"?[ \t;,]*\r?\n/i;

/**
 * The delimiter of a text, told by its first rows: the one that cuts most of them into the same number
 * of cells, and into many.
 * @param last whether these are all the bytes there are
 */
export function delimiterOf(head: Uint8Array, last: boolean): number {
  const said = told.exec(new TextDecoder().decode(head.subarray(0, 40)))?.[1]?.charCodeAt(0);
  if (said !== undefined && delimiters.some((delimiter) => delimiter === said)) return said;
  const scores = delimiters.map((delimiter) => ({ delimiter, score: evenness(head, last, delimiter) }));
  const best = scores.reduce((best, next) => (next.score > best.score ? next : best));
  return best.score > 0 ? best.delimiter : comma;
}

/** Cells of a number that only one row of several has, say in a long comment, prove next to nothing. */
const weight = (count: number, read: number): number => (count > 1 || read === 1 ? count : 0.001);

/** Rows that have the commonest number of cells, weighed by how many those are; one cell weighs nothing. */
function evenness(head: Uint8Array, last: boolean, delimiter: number): number {
  const reader = new CsvReader(delimiter);
  reader.push(head, last);
  const rows = new Map<number, number>();
  for (let read = 0; read < topRows && reader.next(); read++) {
    if (!reader.broken) rows.set(reader.cells.count, (rows.get(reader.cells.count) ?? 0) + 1);
  }
  if (rows.size === 0 && reader.line > 0) return 0;
  // A head that is all one unfinished row.
  if (rows.size === 0) return head.filter((byte) => byte === delimiter).length;
  const read = [...rows.values()].reduce((sum, count) => sum + count, 0);
  return Math.max(...[...rows].map(([cells, count]) => weight(count, read) * Math.sqrt(cells - 1)));
}
