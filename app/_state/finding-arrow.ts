import { findingRows } from '../../lib/charts/index.ts';
import type { Finding } from '../../shared/finding.ts';

/** The rows of a finding's CSV as an Arrow IPC file: a column of numbers alone is one of numbers, others are text. */
export async function findingArrow(finding: Finding): Promise<Blob> {
  // Fetched when asked for: few take it, and it is no small thing to load.
  const { arrowFile } = await import('../../lib/engine/arrow-file.ts');
  const { header, rows } = findingRows(finding);
  const columns = header.map((name, at) => {
    const cells = rows.map((row) => row[at] ?? null);
    const isText = cells.some((cell) => typeof cell === 'string');
    return [
      name,
      isText
        ? cells.map((cell) => (cell === null ? null : String(cell)))
        : Float64Array.from(cells, (cell) => Number(cell ?? NaN)),
    ] as const;
  });
  const file = arrowFile({ rows: rows.length, columns: Object.fromEntries(columns) });
  return new Blob([new Uint8Array(file)], { type: 'application/vnd.apache.arrow.file' });
}
