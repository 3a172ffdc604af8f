import { detectionDelay, type DetectionDelay } from '../../statistics/index.ts';
import { ended } from '../life-rows.ts';
import type { DetectionEvidence } from './detection-evidence.ts';

/** Too few to say how often a check sees a leak: leaks found, and dry checks before them or after they were seen. */
export const leastFound = 15;
export const leastChecks = 30;
/** Lives a fit is made of at most, taken evenly from all. */
const mostLives = 4000;

export interface Detection {
  /** Null with its reason where the record cannot tell. */
  readonly delay: DetectionDelay | null;
  readonly reason: string | null;
  /** Lives watched from new and the leaks found in them. */
  readonly lives: number;
  readonly found: number;
}

/**
 * The chance that one check sees a leak, from lives watched from new: a leak comes to light at the
 * first check that sees it, or when a failure is reported otherwise.
 */
export function detectionOf(evidence: DetectionEvidence, places: Int32Array, level: number): Detection {
  const { lives, checks } = evidence;
  if (!checks) return { delay: null, reason: 'no inspections stand behind these lives', lives: 0, found: 0 };
  const fromNew = places.filter((place) => lives.entry[place] === 0);
  const columns = columnsOf(evidence, checks, sampled(fromNew));
  const found = columns.found.reduce((sum, code) => sum + (code === 0 ? 0 : 1), 0);
  const telling = columns.tellingChecks;
  const none = (reason: string): Detection => ({ delay: null, reason, lives: fromNew.length, found });
  if (found < leastFound) return none(`fewer than ${leastFound} leaks found in lives watched from new: ${found}`);
  if (telling < leastChecks) return none(`fewer than ${leastChecks} checks in lives that leaked: ${telling}`);
  const delay = detectionDelay(columns, { level });
  return { delay, reason: delay.reason, lives: fromNew.length, found };
}

function sampled(places: Int32Array): Int32Array {
  if (places.length <= mostLives) return places;
  return Int32Array.from(
    { length: mostLives },
    (_, at) => places[Math.floor((at * places.length) / mostLives)] as number,
  );
}

function columnsOf({ lives }: DetectionEvidence, checks: NonNullable<DetectionEvidence['checks']>, places: Int32Array) {
  const [exit, found] = [new Float64Array(places.length), new Uint8Array(places.length)];
  const [seenAgain, missedAgain] = [new Float64Array(places.length), new Float64Array(places.length)];
  const [checkLife, checkAge]: [number[], number[]] = [[], []];
  let tellingChecks = 0;
  places.forEach((place, life) => {
    const end = lives.exit[place] as number;
    const failed = lives.ended[place] === ended.failed;
    [exit[life], found[life]] = [end, failed ? 2 : 0];
    const before = checkAge.length;
    for (let check = checks.first[place] as number; check < (checks.first[place + 1] as number); check++) {
      const [age, sees] = [checks.age[check] as number, checks.seen[check] === 1];
      if (!(age > 0 && age <= end)) continue;
      if (found[life] === 1) {
        // The look at which the failure was written down is the finding told twice.
        if (failed && age >= end) continue;
        const again = sees ? seenAgain : missedAgain;
        again[life] = (again[life] as number) + 1;
        tellingChecks++;
      } else if (sees) [exit[life], found[life]] = [age, 1];
      else if (age < end || !failed) {
        checkLife.push(life);
        checkAge.push(age);
      }
    }
    if (found[life] !== 0) tellingChecks += checkAge.length - before;
  });
  const cluster = Int32Array.from(places, (place) => lives.unit[place] as number);
  return { exit, found, checkLife, checkAge, seenAgain, missedAgain, cluster, tellingChecks };
}
