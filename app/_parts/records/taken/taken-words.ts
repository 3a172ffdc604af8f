import { distanceSays } from '../../../../lib/charts/index.ts';
import type { UnitSystem } from '../../../../shared/units.ts';
import type { RebuildAccount } from '../../../_state/lives-desk.ts';

const whole = (value: number): string => value.toLocaleString('en-US');

/** What another choice did to the lives, every number beside what it was. */
export function effectSays(before: RebuildAccount, after: RebuildAccount, units: UnitSystem): string {
  const count = (name: 'lives' | 'failures' | 'lateEntries' | 'unknownStarts', words: string): string | null =>
    before[name] === after[name] ? null : `${words} ${whole(after[name])}, before it ${whole(before[name])}`;
  const changes = [
    count('lives', 'seal lives'),
    count('failures', 'of them failed'),
    Math.round(before.miles) === Math.round(after.miles)
      ? null
      : `miles at risk ${distanceSays(after.miles, units)}, before it ${distanceSays(before.miles, units)}`,
    count('lateEntries', 'running when watching began'),
    count('unknownStarts', 'of unknown start'),
  ].filter((change) => change !== null);
  if (changes.length === 0) return 'The change altered no count of lives, failures or miles.';
  const text = changes.join('; ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** How much of the records the window rests on, and what that does to answers. */
export function windowSays(
  { observedFrom, observedTo, lateEntries, lives }: RebuildAccount,
  declared: boolean,
): string {
  const span = observedFrom && observedTo ? `${observedFrom} to ${observedTo}` : 'no day: there is no dated event';
  const late = `${whole(lateEntries)} of ${whole(lives)} lives were running when watching began, and count only from then on`;
  return declared
    ? `Declared: ${span}. ${late}.`
    : `Nobody has said. Taken: ${span}, the first to the last date of services, inspections and failures. ${late}.`;
}
