import type { WrittenFile } from './delimited-file.ts';
import type { Cell, Grid } from './listing.ts';

type Value = string | number | { [name: string]: Value };

/** An object a line; a header `outer.inner` is a name within an object. Blank cells are left out. */
export function jsonLinesFile({ headers, rows }: Grid): WrittenFile {
  const lines = rows.map(({ cells, behind }) => {
    const object: { [name: string]: Value } = {};
    headers.forEach((header, at) => put(object, header.split('.'), cells[at] ?? null));
    return JSON.stringify(object) + behind;
  });
  return { bytes: new TextEncoder().encode(`${lines.join('\n')}\n`), lines: rows.map((_, at) => at + 1) };
}

function put(object: { [name: string]: Value }, path: readonly string[], cell: Cell): void {
  if (cell === null || cell === '') return;
  const [name = '', ...rest] = path;
  if (rest.length === 0) object[name] = typeof cell === 'object' ? cell.day : cell;
  else put((object[name] ??= {}) as { [name: string]: Value }, rest, cell);
}
