import type { Doubt } from '../../../shared/finding.ts';
import type { CurveRows } from '../curve-rows.ts';
import type { ComponentWords } from '../words/component-words.ts';
import { listed, percent } from '../words/share-words.ts';
import type { Wording } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** Above this share the young ages rest on few lives. */
const mostLate = 0.5;

/**
 * Lives fitted before the records began are at risk only from then on. Fails where they are most of
 * all lives, or where a curve cannot start at installation because too few were watched from new.
 */
export function lateEntries(
  rows: CurveRows,
  starts: readonly (number | null)[],
  thing: ComponentWords,
  words: Wording,
): Doubt | null {
  if (rows.rows === 0) return null;
  const late = rows.entry.reduce((sum, entry) => sum + (entry > 0 ? 1 : 0), 0);
  const share = late / rows.rows;
  const conditional = starts.flatMap((start, group) =>
    start !== null && start > 0 ? [{ start, label: rows.group.levels[group] as string }] : [],
  );
  const tells =
    conditional.length === 0
      ? ''
      : starts.length === 1
        ? `; the curve tells of ${thing.many} that reached ${words.age(conditional[0]?.start ?? 0)}`
        : `; curves that start later: ${listed(conditional.map(({ start, label }) => `“${label}” at ${words.age(start)}`))}`;
  const detail =
    late === 0
      ? 'Every life was watched from its installation on.'
      : `${percent(share)} of lives began before the records and are counted from then on${tells}.`;
  return doubt('Late entries', failsIf(share > mostLate || conditional.length > 0), detail, 'older service records');
}
