import type { TableUse } from '../../../shared/record-quality.ts';

/** Rows set aside for one kind of reason. */
export interface ReasonKind {
  readonly table: string;
  readonly reason: string;
  readonly rows: number;
}

/** Reasons that name another row are one kind, whichever row it is. */
const kindOf = (reason: string): string =>
  reason.replace(/\b(same as|used by) .+?, row \d(?:[\d,]*\d)?(?:, of \d{4}-\d{2}-\d{2})?/, '$1 another row');

/** Why rows were set aside, by table and kind, most rows first. */
export function reasonKinds(tables: readonly TableUse[]): ReasonKind[] {
  const kinds = new Map<string, ReasonKind>();
  for (const { table, reasons } of tables)
    for (const { reason, rows } of reasons) {
      const kind = kindOf(reason);
      const before = kinds.get(`${table} ${kind}`)?.rows ?? 0;
      kinds.set(`${table} ${kind}`, { table, reason: kind, rows: before + rows });
    }
  return [...kinds.values()].sort((a, b) => b.rows - a.rows);
}
