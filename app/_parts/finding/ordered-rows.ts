import type { TableRow } from '../../../lib/charts/index.ts';

export interface Order {
  readonly column: number;
  readonly down: boolean;
}

/** Rows ordered by one column; what has no value comes last either way. */
export function orderedRows(rows: readonly TableRow[], order: Order | null): readonly TableRow[] {
  if (order === null) return rows;
  const sign = order.down ? -1 : 1;
  return [...rows].sort((a, b) => {
    const [left, right] = [a.cells[order.column]?.sort ?? null, b.cells[order.column]?.sort ?? null];
    if (left === null || right === null) return Number(left === null) - Number(right === null);
    if (typeof left === 'number' && typeof right === 'number') return sign * (left - right);
    return sign * String(left).localeCompare(String(right), 'en', { numeric: true });
  });
}
