import type { AppendColumn } from '../engine/engine.ts';

/** One row kept out, with the number of its file. */
export interface SetAside {
  readonly fileId: number;
  readonly row: number;
  readonly column: string;
  readonly value: string;
  readonly reason: string;
  readonly accepted: string;
  readonly original: string;
}

const batchRows = 4096;
const batchTextLength = 2 ** 23;

/** Rows set aside, on their way to the engine. */
export class SetAsideBatch {
  #rows: SetAside[] = [];
  #textLength = 0;

  add(row: SetAside): void {
    this.#rows.push(row);
    this.#textLength += row.original.length + row.value.length;
  }

  get full(): boolean {
    return this.#rows.length >= batchRows || this.#textLength >= batchTextLength;
  }

  get rows(): number {
    return this.#rows.length;
  }

  taken(): Record<string, AppendColumn> {
    const rows = this.#rows;
    this.#rows = [];
    this.#textLength = 0;
    return {
      file_id: Float64Array.from(rows, ({ fileId }) => fileId),
      row: Float64Array.from(rows, ({ row }) => row),
      column: rows.map(({ column }) => column),
      value: rows.map(({ value }) => value),
      reason: rows.map(({ reason }) => reason),
      accepted: rows.map(({ accepted }) => accepted),
      original: rows.map(({ original }) => original),
    };
  }
}
