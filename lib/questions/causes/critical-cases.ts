import type { Asking } from '../asking.ts';
import { run } from '../asking.ts';
import { isSafetyCritical } from '../comparison.ts';
import { casesStatement, readCases, type SafetyCase } from '../safety-cases.ts';
import type { CausesEvidence } from './causes-evidence.ts';

/** More cases of one deviation than this are counted, not listed. */
export const mostCases = 15;

export interface CriticalCases {
  readonly failed: number;
  /** At most `mostCases` of them. */
  readonly listed: readonly SafetyCase[];
}

/** Failed lives that carried a safety-critical deviation, by its code; each is listed however few there are. */
export async function criticalCases(
  asking: Asking,
  { asked, rows, lives, exposures }: CausesEvidence,
): Promise<ReadonlyMap<string, CriticalCases>> {
  const cases = new Map<string, CriticalCases>();
  for (const { deviation, codes } of exposures) {
    if (deviation === null || !isSafetyCritical(deviation)) continue;
    const failed = rows.filter((_, at) => codes[at] === 1 && lives.event[at] === 1);
    const listed =
      failed.length === 0
        ? []
        : readCases(await run(asking, casesStatement(asked.component, [...failed.subarray(0, mostCases)])));
    cases.set(deviation, { failed: failed.length, listed });
  }
  return cases;
}
