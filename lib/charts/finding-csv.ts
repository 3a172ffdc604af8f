import { csvCell } from '../../shared/csv-cell.ts';
import type { Finding } from '../../shared/finding.ts';
import { findingRows, type Cell } from './finding-rows.ts';

const line = (cells: readonly Cell[]): string => cells.map(csvCell).join(',');

/** A finding's rows as CSV: the first line is the header. */
export function findingCsv(finding: Finding): string {
  const { header, rows } = findingRows(finding);
  return `${[header, ...rows].map(line).join('\r\n')}\r\n`;
}
