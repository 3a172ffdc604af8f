import type { HistoryEvent, LivedStretch, WheelEndHistory } from '../../shared/life-history.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { LifeState } from '../../shared/vocabulary.ts';
import { distanceSays } from './shown-number.ts';

/** How lives end, in the reader's words: one ending a life in a failure, the rest censored. */
export const stateWords: Readonly<Record<LifeState, string>> = {
  failed: 'failed',
  planned: 'renewed',
  'other-failure': 'other part failed',
  'removed-unknown': 'renewed, why not told',
  'unit-left': 'left the fleet',
  running: 'running',
};

export const lifeSays = (state: LifeState, mode: string | null): string =>
  state === 'failed' && mode !== null ? `failed: ${mode}` : stateWords[state];

const leaks = ['dry', 'damp', 'wet', 'dripping or on the lining'];

function eventSays({ table, id, what, why, leak, counts }: HistoryEvent): string {
  if (table === 'inspections') return `inspection ${id}: ${leak === null ? 'not checked' : (leaks[leak] ?? '')}`;
  if (table === 'services') return `service ${id}: ${what ?? 'nothing'} replaced${why === null ? '' : `, ${why}`}`;
  const loss = why === 'fastener' ? ', through the fasteners' : '';
  return `failure ${id}: ${what ?? 'mode not known'}${loss}${counts ? '' : ', of another part'}`;
}

/** What stands at each mark of a strip. */
export const markSays = {
  event: (event: HistoryEvent, units: UnitSystem): string =>
    `${distanceSays(event.miles, units)}, ${event.day}: ${eventSays(event)}`,
  life: ({ fromMiles, toMiles, state, mode, inferredEnd }: LivedStretch, number: number, units: UnitSystem): string =>
    `life ${number}: ${distanceSays(fromMiles, units)} to ${distanceSays(toMiles, units)}, ${lifeSays(state, mode)}${inferredEnd ? ' (taken from the parts replaced and the reason)' : ''}`,
};

/** The strip as a sentence, for those who do not see it. */
export function stripDescription({ lives, events, waits }: WheelEndHistory, units: UnitSystem): string {
  const told = lives.map((life, index) => markSays.life(life, index + 1, units));
  const checks = events.filter(({ table, leak }) => table === 'inspections' && leak !== null).length;
  const waited = waits.length === 0 ? '' : `; ${waits.length} ${waits.length === 1 ? 'wait' : 'waits'} for repair`;
  return `${told.join('; ')}${waited}; ${checks} ${checks === 1 ? 'check' : 'checks'}.`;
}
