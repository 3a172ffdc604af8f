import {
  DOUBLE,
  VARCHAR,
  type DuckDBConnection,
  type DuckDBInstance,
  type DuckDBMaterializedResult,
} from '@duckdb/node-api';
import type { AppendPlan } from './append-plan.ts';
import type { ResultTable } from './engine.ts';
import { appendNative } from './native-append.ts';
import { decodeNative } from './native-decode.ts';
import { QueuedEngine } from './queued-engine.ts';
import type { Statement } from './statement.ts';

/** How often an abort is repeated, in ms: one that falls just before the query starts is forgotten by DuckDB. */
const interruptEvery = 20;

/** Appends of fewer rows are packed as DuckDB thinks fit; it is not worth a statement of its own. */
const manyRows = 2 ** 14;

/** The engine over native DuckDB. */
export class NativeEngine extends QueuedEngine<DuckDBMaterializedResult> {
  override readonly appendsBeside = false;

  constructor(
    private readonly instance: DuckDBInstance,
    private readonly connection: DuckDBConnection,
    private readonly ended: () => void = () => undefined,
  ) {
    super();
  }

  protected override async answer(
    { text, values }: Statement,
    signal?: AbortSignal,
  ): Promise<DuckDBMaterializedResult> {
    // DuckDB would bind whole numbers as INTEGER, and the type of an answer would hang on its parameter's value.
    const types = values.map((value) => (typeof value === 'number' ? DOUBLE : VARCHAR));
    const answer = this.connection.run(text, [...values], types);
    return signal ? this.#interruptible(answer, signal) : answer;
  }

  protected override decode(answer: DuckDBMaterializedResult): Promise<ResultTable> {
    return decodeNative(answer);
  }

  /** DuckDB packs new rows within a commit, which blocks; a checkpoint packs them on a thread beside this one. */
  protected override async insert(table: string, plan: AppendPlan): Promise<void> {
    if (plan.rows < manyRows) return appendNative(this.connection, table, plan);
    await this.connection.run(`set checkpoint_threshold = '1TB'`);
    try {
      await appendNative(this.connection, table, plan);
    } finally {
      await this.connection.run('reset checkpoint_threshold');
    }
    // In a turn of its own, before whatever comes next; rows that it fails to pack are there all the same.
    this.inTurn(() => this.connection.run('checkpoint')).catch(() => undefined);
  }

  protected override end(): Promise<void> {
    this.connection.closeSync();
    this.instance.closeSync();
    this.ended();
    return Promise.resolve();
  }

  async #interruptible<T>(answer: Promise<T>, signal: AbortSignal): Promise<T> {
    let repeated: NodeJS.Timeout | undefined;
    const interrupt = () => {
      this.connection.interrupt();
      repeated = setInterval(() => this.connection.interrupt(), interruptEvery);
    };
    signal.addEventListener('abort', interrupt);
    try {
      return await answer;
    } catch (error) {
      signal.throwIfAborted();
      throw error;
    } finally {
      signal.removeEventListener('abort', interrupt);
      clearInterval(repeated);
    }
  }
}
