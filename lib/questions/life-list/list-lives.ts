import { lifeStates, type Component } from '../../../shared/vocabulary.ts';
import type { LivesPick } from '../../../shared/lives-pick.ts';
import type { View } from '../../../shared/view.ts';
import type { LivesSource } from '../../lives/index.ts';
import { askedLives } from '../columns/asked-lives.ts';
import { scopeOf } from '../scope.ts';
import { wording } from '../words/wording.ts';
import { listColumns, type ListColumns } from './list-columns.ts';
import { orderedRows } from './ordered-rows.ts';
import { pickedRows } from './picked-rows.ts';

/** What the lives listed come to. */
export interface LivesCounted {
  readonly lives: number;
  readonly vehicles: number;
  readonly exposureMiles: number;
  /** Lives by how they ended, in the order of `lifeStates`. */
  readonly states: readonly number[];
  /** Failure episodes found in their exposure, where the pick asks for one kind; else null. */
  readonly episodes: number | null;
}

/** The lives of a view and a pick, in order; pages of it cost nothing. */
export interface LivesListed {
  readonly component: Component;
  /** Places in the lives table. */
  readonly rows: Int32Array;
  readonly columns: ListColumns;
  readonly counted: LivesCounted;
}

function counted(rows: Int32Array, { life, state, cuts }: ListColumns, episodes: number | null): LivesCounted {
  const states = new Array<number>(lifeStates.length).fill(0);
  const seen = new Uint8Array(cuts.unit_id.levels.length);
  let [vehicles, exposureMiles] = [0, 0];
  for (const row of rows) {
    const code = state[row] as number;
    states[code] = (states[code] as number) + 1;
    exposureMiles += life.exposure[row] as number;
    const unit = cuts.unit_id.codes[row] as number;
    vehicles += 1 - (seen[unit] as number);
    seen[unit] = 1;
  }
  return { lives: rows.length, vehicles, exposureMiles, states, episodes };
}

/**
 * The lives that stand behind a number: those of the view by the same rules as the questions take
 * them (comparisons apart, which a link spells out), then those picked, in the order asked for.
 * Episodes are of seal lives, whose exposure is that of the wheel ends.
 */
export async function listLives(
  source: LivesSource,
  view: View,
  pick: LivesPick,
  signal?: AbortSignal,
): Promise<LivesListed> {
  const component = pick.found === null ? view.component : 'seal';
  const lives = askedLives(source, component);
  const apart = { ...view, by: [] };
  const scope = await scopeOf({ source, view: apart, words: wording(), signal }, lives);
  const columns = await listColumns(lives, signal);
  const episodes = pick.found === null ? null : await lives.episodes(signal);
  signal?.throwIfAborted();
  const picked = pickedRows(scope.rows, apart, pick, columns, episodes);
  const rows = pick.order === null ? picked.rows : orderedRows(picked.rows, pick.order, pick.down, columns);
  return { component, rows, columns, counted: counted(rows, columns, episodes === null ? null : picked.episodes) };
}
