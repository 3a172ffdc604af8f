import type { Doubt } from '../../../shared/finding.ts';
import { counted, type Limits } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** An answer with and without the lives whose miles are estimated. */
export interface WithoutEstimated {
  readonly lives: number;
  /** What the answer says, its interval, and what it would say without them; null = cannot be told. */
  readonly answer: number | null;
  readonly limits: Limits;
  readonly without: number | null;
  readonly write: (value: number) => string;
  /** What the number is: `of 100 have failed by 100,000 miles`. */
  readonly says: string;
}

/** More than this share of the answer is not to hang on estimates. */
const mostMoved = 0.1;

/**
 * Lives whose miles are carried on beyond the readings, or taken from like units: the answer without
 * them beside the answer. Fails where that leaves the interval, or moves by more than a tenth.
 */
export function estimatedLives({ lives, answer, limits, without, write, says }: WithoutEstimated): Doubt | null {
  if (lives === 0) return null;
  const name = 'Estimated lives left out';
  const settledBy = 'odometer or hub-odometer readings of those vehicles';
  const about = `The miles of ${counted(lives, 'life', 'lives')} are estimated`;
  if (answer === null || without === null)
    return doubt(name, 'cannot-tell', `${about}; without them the answer cannot be told.`, settledBy);
  const outside = without < (limits.lower ?? -Infinity) || without > (limits.upper ?? Infinity);
  const moved = Math.abs(without - answer) > mostMoved * Math.abs(answer);
  return doubt(
    name,
    failsIf(outside || moved),
    `${about}; without them ${write(without)} instead of ${write(answer)} ${says}.`,
    settledBy,
  );
}
