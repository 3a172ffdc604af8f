import { columnsOfTable, planAppend, type AppendPlan } from './append-plan.ts';
import { numberColumn, textColumn, type AppendColumn, type Engine, type ResultTable } from './engine.ts';
import { identifier, sql, type Statement } from './statement.ts';
import { Turns } from './turns.ts';

/** What every engine does alike; `Answer` is the form in which its core gives a result. */
export abstract class QueuedEngine<Answer> implements Engine {
  abstract readonly appendsBeside: boolean;
  readonly #turns = new Turns();

  protected abstract answer(statement: Statement, signal?: AbortSignal): Promise<Answer>;
  protected abstract decode(answer: Answer): Promise<ResultTable>;
  protected abstract insert(table: string, plan: AppendPlan): Promise<void>;
  protected abstract end(): Promise<void>;

  async run(statement: Statement, signal?: AbortSignal): Promise<void> {
    await this.#turns.take(() => this.answer(statement, signal), signal);
  }

  query(statement: Statement, signal?: AbortSignal): Promise<ResultTable> {
    return this.#turns.take(() => this.#decoded(statement, signal), signal);
  }

  runTogether(statements: readonly Statement[], signal?: AbortSignal): Promise<void> {
    return this.#turns.take(async () => {
      await this.answer(sql`begin transaction`);
      try {
        for (const statement of statements) await this.answer(statement, signal);
        signal?.throwIfAborted();
        await this.answer(sql`commit`);
      } catch (error) {
        // A failed commit has already rolled back; the first error is the one to tell.
        await this.answer(sql`rollback`).catch(() => undefined);
        throw error;
      }
    }, signal);
  }

  append(table: string, columns: Readonly<Record<string, AppendColumn>>): Promise<number> {
    return this.#turns.take(async () => {
      const described = await this.#decoded(columnsOfTable(table));
      const types = textColumn(described, 'type');
      const named = textColumn(described, 'name').map((name, index) => [name ?? '', types[index] ?? ''] as const);
      const plan = planAppend(table, named, columns);
      if (plan.rows === 0) return 0;
      const before = await this.#count(table);
      await this.insert(table, plan);
      const appended = (await this.#count(table)) - before;
      // A stream it does not like, DuckDB-WASM takes without a word and without its rows.
      if (appended !== plan.rows) throw new Error(`${appended} of ${plan.rows} rows reached ${table}`);
      return appended;
    });
  }

  close(): Promise<void> {
    return this.#turns.take(() => this.end());
  }

  /** To be called before anything else: no extension may be looked for on the network. */
  async goOffline(): Promise<void> {
    await this.run(sql`set autoinstall_known_extensions = false`);
    await this.run(sql`set autoload_known_extensions = false`);
  }

  /** What is made from now on lies packed in memory: lives of 1.3 million rows took a tenth of the room (`npm run bench -- scale`). */
  async packInMemory(): Promise<void> {
    await this.run(sql`attach ':memory:' as packed (compress)`);
    await this.run(sql`use packed`);
  }

  /** Other work that must not meet a statement half-way. */
  protected inTurn<T>(work: () => Promise<T>, signal?: AbortSignal): Promise<T> {
    return this.#turns.take(work, signal);
  }

  async #decoded(statement: Statement, signal?: AbortSignal): Promise<ResultTable> {
    return this.decode(await this.answer(statement, signal));
  }

  async #count(table: string): Promise<number> {
    return numberColumn(await this.#decoded(sql`select count(*) as n from ${identifier(table)}`), 'n')[0] ?? 0;
  }
}
