import type { Doubt } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import { criticalColumn, type SafetyCase } from '../safety-cases.ts';
import { attributeName } from '../words/group-words.ts';
import { counted, type Wording } from '../words/wording.ts';
import { doubt } from './doubt.ts';

/**
 * A safety-critical deviation is changed on mechanism, not on statistics: where its failures are too
 * few to lean on, every one of them is listed instead.
 */
export function safetyCritical(view: View, cases: readonly SafetyCase[] | null, words: Wording): Doubt | null {
  const column = criticalColumn(view);
  if (column === null || cases === null) return null;
  const list = cases.map(({ unitId, position, mode, miles, endId }) => {
    const age = Number.isNaN(miles) ? '' : ` after ${words.miles(miles)}`;
    return `vehicle ${unitId}, axle ${position}: ${mode}${age} (${endId})`;
  });
  const say =
    list.length === 0 ? 'No failed case is recorded' : `${counted(list.length, 'failed case')}: ${list.join('; ')}`;
  return doubt(
    'Safety-critical',
    'cannot-tell',
    `Few failures do not make “${attributeName(column)}” safe. ${say}.`,
    'the mechanism and a few teardowns, not more statistics',
  );
}
