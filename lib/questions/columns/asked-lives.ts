import type { Axis } from '../../../shared/view.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import type { ResultTable } from '../../engine/engine.ts';
import type { Statement } from '../../engine/statement.ts';
import { livesTable, pageColumnsStatement, type LivesSource } from '../../lives/index.ts';
import { codesStatement, levelsStatement, narrowed, readCutCodes, widened, type CutCodes } from './cut-codes.ts';
import { episodesStatement, readEpisodes, type EpisodeColumns } from './episode-columns.ts';
import { lifeColumnsStatement, readLifeColumns, type LifeColumns } from './life-columns.ts';
import { readListedColumns, type ListedColumns } from './listed-columns.ts';
import { outcomesStatement, readOutcomes, type OutcomeColumns } from './outcome-columns.ts';
import { readSeenLeaks, seenLeaksStatement } from './seen-leaks.ts';

/**
 * The lives of one component as numbers and codes, read from the engine once and kept, so that a
 * changed filter costs no query: each column is asked for when a view first needs it.
 */
export class AskedLives {
  readonly #kept = new Map<string, unknown>();

  constructor(
    private readonly source: LivesSource,
    private readonly component: Component,
  ) {}

  async columns(signal?: AbortSignal): Promise<LifeColumns> {
    await this.source.ensure(this.component, signal);
    return this.keep('columns', signal, async (ask) => readLifeColumns(await ask(lifeColumnsStatement(this.table))));
  }

  async cut(column: string, signal?: AbortSignal): Promise<CutCodes> {
    const kept = await this.keep(`cut ${column}`, signal, async (ask) =>
      narrowed(
        readCutCodes(await ask(levelsStatement(this.table, column)), await ask(codesStatement(this.table, column))),
      ),
    );
    return widened(kept);
  }

  episodes(signal?: AbortSignal): Promise<EpisodeColumns> {
    return this.keep('episodes', signal, async (ask) => readEpisodes(await ask(episodesStatement)));
  }

  /** The same with the ages at which they were found; of seal lives. */
  outcomes(signal?: AbortSignal): Promise<OutcomeColumns> {
    return this.keep('outcomes', signal, async (ask) => readOutcomes(await ask(outcomesStatement)));
  }

  /** What the list of lives shows beside. */
  async listed(signal?: AbortSignal): Promise<ListedColumns> {
    await this.source.ensure(this.component, signal);
    return this.keep('listed', signal, async (ask) => readListedColumns(await ask(pageColumnsStatement(this.table))));
  }

  /** Ages at leaks that only an inspection saw, by life; null where no inspections stand behind the lives. */
  async seenLeaks(axis: Axis, signal?: AbortSignal): Promise<Float64Array | null> {
    if (!this.source.fromRecords) return null;
    const { rows } = await this.columns(signal);
    const seen = await this.keep('seen leaks', signal, async (ask) =>
      readSeenLeaks(await ask(seenLeaksStatement(this.component)), rows),
    );
    return seen[axis];
  }

  private get table(): string {
    return livesTable(this.component);
  }

  private async keep<T>(
    name: string,
    signal: AbortSignal | undefined,
    read: (ask: (statement: Statement) => Promise<ResultTable>) => Promise<T>,
  ): Promise<T> {
    signal?.throwIfAborted();
    const kept = this.#kept.get(name);
    if (kept !== undefined) return kept as T;
    const value = await read((statement) => this.source.engine.query(statement, signal));
    this.#kept.set(name, value);
    return value;
  }
}

const asked = new WeakMap<LivesSource, Map<Component, AskedLives>>();

/** The lives of a component of a source; a source rebuilt is another source, and nothing is kept of the old one. */
export function askedLives(source: LivesSource, component: Component): AskedLives {
  const components = asked.get(source) ?? new Map<Component, AskedLives>();
  asked.set(source, components);
  const lives = components.get(component) ?? new AskedLives(source, component);
  components.set(component, lives);
  return lives;
}
