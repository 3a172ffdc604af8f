import type { TableName } from '../../shared/record-tables.ts';
import { acceptedIn, problemOf } from './cell-problem.ts';
import type { CutRow } from './cut-row.ts';
import type { Header } from './header.ts';
import type { IdentityIndex } from './identity-index.ts';
import { RowBatch } from './row-batch.ts';
import type { RowSink } from './row-sink.ts';
import { SetAsideBatch } from './set-aside-batch.ts';
import type { Staging } from './staging.ts';

/** The rows of one file: each is either staged or set aside, and counted. */
export class FileRows implements RowSink {
  read = 0;
  setAside = 0;
  /** Whether the engine, rather than the file, is to blame for an error. */
  engineFailed = false;
  readonly #batch: RowBatch;
  readonly #aside = new SetAsideBatch();
  #suspects: { line: number; original: string }[] = [];
  /** The append under way, while the next rows are already being read. */
  #sending: Promise<unknown> = Promise.resolve();

  constructor(
    private readonly staging: Staging,
    private readonly table: TableName,
    private readonly fileId: number,
    readonly header: Header,
    private readonly ids: IdentityIndex | null,
  ) {
    this.#batch = new RowBatch(fileId, header);
  }

  get width(): number {
    return this.header.width;
  }

  /** Reads a row that has a cell for every header. */
  row(row: CutRow, line: number): void {
    const problem = this.#batch.write(row, line);
    if (problem) {
      const { cell, column } = problem;
      const value = row.shown(cell);
      const reason = row.fault?.(cell) ?? problemOf(column, value);
      const accepted = row.accepted?.(cell) ?? acceptedIn(column);
      this.put(line, row.named?.(cell) ?? column.name, value, reason, accepted, row.original());
      return;
    }
    this.read++;
    const { bytes, start, end } = this.#batch.first;
    if (this.ids?.add(bytes, start, end)) {
      this.#suspects.push({ line, original: row.original() });
    }
  }

  /** Sets a row aside that cannot be read as cells. */
  broken(line: number, reason: string, accepted: string, original: string): void {
    this.put(line, '', '', reason, accepted, original);
  }

  get full(): boolean {
    return this.#batch.full || this.#aside.full || this.#suspects.length >= 4096;
  }

  /** Makes ready to take the columns that the header names. */
  async begin(): Promise<this> {
    const columns = this.header.columns.map(({ column }) => column);
    await this.staging.widen(this.table, columns).catch((error: unknown) => {
      this.engineFailed = true;
      throw error;
    });
    return this;
  }

  /** Sends what is held on its way, once what went before has arrived. */
  async send(): Promise<void> {
    await this.#sending;
    this.#sending = this.#append();
    // Heard again by whoever waits for it next.
    this.#sending.catch(() => (this.engineFailed = true));
    if (!this.staging.appendsBeside) await this.#sending;
  }

  async finish(): Promise<void> {
    await this.send();
    await this.#sending;
  }

  /** Waits for what is on its way, whatever becomes of it. */
  async settled(): Promise<void> {
    await this.#sending.catch(() => undefined);
  }

  async #append(): Promise<void> {
    const suspects = this.#suspects;
    this.#suspects = [];
    const aside = this.#aside.rows > 0 ? this.#aside.taken() : null;
    const rows = this.#batch.rows > 0 ? this.#batch.taken() : null;
    if (aside) await this.staging.append('set_aside', aside);
    if (suspects.length > 0)
      await this.staging.append('suspects', {
        file_id: new Float64Array(suspects.length).fill(this.fileId),
        line: Float64Array.from(suspects, ({ line }) => line),
        original: suspects.map(({ original }) => original),
      });
    // The many rows last: the engine may have more to do with them, and what came next would wait for it.
    if (rows) await this.staging.appendRows(this.table, rows);
  }

  /** Sets a row aside. */
  put(row: number, column: string, value: string, reason: string, accepted: string, original: string): void {
    this.read++;
    this.setAside++;
    this.#aside.add({ fileId: this.fileId, row, column, value, reason, accepted, original });
  }
}
