import { ended } from '../life-rows.ts';
import type { DetectionEvidence } from './detection-evidence.ts';
import { dryAges } from './life-checks.ts';

/** Lives by when the leak can have begun (record contract 5.5): after `lower`, by `upper`; Infinity: not yet. */
export interface OnsetLives {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly entry: Float64Array;
  readonly cluster: Int32Array;
  readonly failures: number;
}

/**
 * @param places of the lives, by place in `evidence.lives`
 * @param lastMissed the last dry check of a life in grease counts as one that may have missed the leak
 */
export function onsetLives(evidence: DetectionEvidence, places: Int32Array, lastMissed: boolean): OnsetLives {
  const { lives, checks, hidden } = evidence;
  const [lower, upper, entry, cluster]: [number[], number[], number[], number[]] = [[], [], [], []];
  let failures = 0;
  for (const place of places) {
    const exit = lives.exit[place] as number;
    const failed = lives.ended[place] === ended.failed;
    const dry = checks ? dryAges(checks, place).filter((age) => age < exit || !failed) : null;
    const from = enteredAt(lives.entry[place] as number, dry);
    let begun = lives.onsetLower[place] as number;
    // A removal is taken as looked at then: that look is no check that grease could have fooled.
    const looked = !failed && begun >= exit;
    if (lastMissed && hidden[place] === 1 && !looked && dry !== null) begun = dry.at(-2) ?? 0;
    if (from === null || Number.isNaN(begun)) continue;
    begun = Math.max(begun, from);
    if (failed ? !(exit > from) : !(begun > from)) continue;
    lower.push(Math.min(begun, exit));
    upper.push(failed ? exit : Infinity);
    entry.push(from);
    cluster.push(lives.unit[place] as number);
    if (failed) failures++;
  }
  return {
    ...{ lower: Float64Array.from(lower), upper: Float64Array.from(upper), entry: Float64Array.from(entry) },
    ...{ cluster: Int32Array.from(cluster), failures },
  };
}

/** Lives met after they were new come in at their first dry check: before it nobody knows whether they leaked. */
function enteredAt(entry: number, dry: readonly number[] | null): number | null {
  if (entry === 0 || dry === null) return entry;
  return dry[0] ?? null;
}
