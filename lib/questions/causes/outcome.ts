import { components, type Component } from '../../../shared/vocabulary.ts';
import type { View } from '../../../shared/view.ts';
import type { AdjustableLives } from '../adjustment/adjustable-lives.ts';
import type { AskedLives } from '../columns/asked-lives.ts';
import { lining } from '../columns/episode-columns.ts';
import { modeCode, states, type LifeColumns } from '../columns/life-columns.ts';
import { ended } from '../life-rows.ts';

/** How each life comes out against the outcome asked for; columns are one a life, in the lives' order. */
export interface Outcome {
  readonly exit: Float64Array;
  /** A code of `ended`: failed where the outcome happened. */
  readonly cause: Uint8Array;
  readonly event: Uint8Array;
}

/** What a view holds deviations against. */
export interface OutcomeAsked {
  readonly kind: View['outcome'];
  readonly component: Component;
}

/**
 * A mode that the component has not is found at the wheel end, not in its life: it is then looked
 * for among all failures there. Failures of the wheel end are found in the exposure of seal lives.
 */
export function outcomeAsked({ outcome, component, mode }: View): OutcomeAsked {
  const own: readonly string[] = components[component].modes;
  const kind = outcome === 'component' && mode !== null && !own.includes(mode) ? 'any' : outcome;
  return { kind, component: kind === 'component' ? component : 'seal' };
}

export async function outcomeOf(
  view: View,
  asked: AskedLives,
  lives: AdjustableLives,
  columns: LifeColumns,
  signal?: AbortSignal,
): Promise<Outcome> {
  const { kind } = outcomeAsked(view);
  return kind === 'component'
    ? ownFailures(view, lives, columns)
    : firstFound(view, kind, await asked.outcomes(signal), lives, columns);
}

function ownFailures(view: View, { rows, exit }: AdjustableLives, columns: LifeColumns): Outcome {
  const wanted = view.mode === null ? null : modeCode(view.mode);
  const cause = Uint8Array.from(rows, (row) => {
    const state = columns.state[row] as number;
    return state === states.failed && wanted !== null && columns.mode[row] !== wanted ? ended.renewed : state;
  });
  return { exit, cause, event: cause.map((code) => (code === ended.failed ? 1 : 0)) };
}

/** A life ends at the first that is found; one that failed without it ends as a renewal does. */
function firstFound(
  view: View,
  kind: 'any' | 'lining',
  found: Awaited<ReturnType<AskedLives['outcomes']>>,
  { rows, entry, exit: ends }: AdjustableLives,
  columns: LifeColumns,
): Outcome {
  const wanted = view.mode === null ? null : modeCode(view.mode);
  const age = found.age[view.axis];
  const first = new Float64Array(columns.rows).fill(Infinity);
  for (let place = 0; place < found.rows; place++) {
    if (wanted !== null && found.mode[place] !== wanted) continue;
    if (kind === 'lining' && found.lining[place] !== lining.soaked) continue;
    const life = found.life[place] as number;
    first[life] = Math.min(first[life] as number, age[place] as number);
  }
  const exit = ends.slice();
  const cause = new Uint8Array(rows.length);
  for (let at = 0; at < rows.length; at++) {
    const row = rows[at] as number;
    const state = columns.state[row] as number;
    const happened = first[row] as number;
    if (happened > (entry[at] as number) && happened <= (ends[at] as number)) {
      exit[at] = happened;
      cause[at] = ended.failed;
    } else cause[at] = state === states.failed ? ended.renewed : state;
  }
  return { exit, cause, event: cause.map((code) => (code === ended.failed ? 1 : 0)) };
}
