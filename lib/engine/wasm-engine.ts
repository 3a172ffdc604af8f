import { DataType, tableFromIPC } from 'apache-arrow';
import type { AppendPlan } from './append-plan.ts';
import { decodeArrow } from './arrow-decode.ts';
import { arrowStream } from './arrow-encode.ts';
import type { ResultTable } from './engine.ts';
import { literalText } from './literal-text.ts';
import { undecodable } from './plain-number.ts';
import { QueuedEngine } from './queued-engine.ts';
import type { Statement } from './statement.ts';

type Awaitable<T> = T | Promise<T>;

/** What DuckDB-WASM offers alike through its worker and through its blocking bindings. */
export interface WasmBindings {
  startPendingQuery(connection: number, text: string, streamed: boolean): Awaitable<Uint8Array | null>;
  pollPendingQuery(connection: number): Awaitable<Uint8Array | null>;
  cancelPendingQuery(connection: number): Awaitable<boolean>;
  fetchQueryResults(connection: number): Awaitable<Uint8Array | null>;
  insertArrowFromIPCStream(
    connection: number,
    stream: Uint8Array,
    into: { name: string; schema: string; create: boolean },
  ): Awaitable<void>;
}

/** The engine over either kind of bindings; an answer is an Arrow IPC stream. */
export class WasmEngine extends QueuedEngine<Uint8Array> {
  override readonly appendsBeside = true;

  /** @param pause lets an abort be heard between two steps of a query */
  constructor(
    private readonly bindings: WasmBindings,
    private readonly connection: number,
    private readonly pause: () => Promise<void>,
    protected override readonly end: () => Promise<void>,
  ) {
    super();
  }

  protected override async answer(statement: Statement, signal?: AbortSignal): Promise<Uint8Array> {
    let part = await this.bindings.startPendingQuery(this.connection, literalText(statement), false);
    while (part === null) {
      await this.pause();
      if (signal?.aborted) {
        await this.bindings.cancelPendingQuery(this.connection);
        signal.throwIfAborted();
      }
      part = await this.bindings.pollPendingQuery(this.connection);
    }
    const parts: Uint8Array[] = [];
    while (part === null || part.length > 0) {
      if (part !== null) parts.push(part);
      part = await this.bindings.fetchQueryResults(this.connection);
    }
    return joined(parts);
  }

  protected override async decode(answer: Uint8Array): Promise<ResultTable> {
    const table = tableFromIPC(answer);
    // The answers of pending queries come without the words of an enumeration.
    const coded = table.schema.fields.find(({ type }) => DataType.isDictionary(type));
    if (coded) throw undecodable(coded.name, 'an enumeration');
    return decodeArrow(table);
  }

  protected override async insert(table: string, plan: AppendPlan): Promise<void> {
    const into = { name: table, schema: 'main', create: false };
    await this.bindings.insertArrowFromIPCStream(this.connection, arrowStream(plan), into);
  }
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((length, part) => length + part.length, 0));
  let end = 0;
  for (const part of parts) {
    whole.set(part, end);
    end += part.length;
  }
  return whole;
}
