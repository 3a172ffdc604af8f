import { shownLimits, type Estimate } from '../../../shared/finding.ts';
import { observedExpectedChange, type Interval } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import type { LikeForLike } from './like-for-like.ts';
import { ratioEstimate } from './ratio-estimates.ts';

/**
 * With and without the recorded deviations: the ratio once they are taken into account as well, how
 * far it moves, and the part of the excess that goes with it.
 */
export function explainedEstimates(
  alike: LikeForLike | null,
  place: number,
  level: number,
  compared: boolean,
): Record<string, Estimate> {
  const method = 'ratio with recorded deviations taken into account over the ratio without; by vehicle';
  const change = { level, unit: 'ratio', method };
  const share = { level, unit: 'share', method: `part of the excess that goes; ${method}` };
  if (!alike?.withDeviations || !compared) {
    const reason = alike && !alike.withDeviations ? 'no recorded deviation has failures enough' : 'not compared';
    return {
      observedToExpectedWithDeviations: noEstimate({ ...change, reason }),
      changeWithDeviations: noEstimate({ ...change, reason }),
      excessWithDeviations: noEstimate({ ...share, reason }),
    };
  }
  const moved = observedExpectedChange(alike.plain, alike.withDeviations, place);
  return {
    observedToExpectedWithDeviations: ratioEstimate(alike.withDeviations, place, level),
    changeWithDeviations: toEstimate(moved.ratio, change),
    excessWithDeviations: excessEstimate(moved.share, ratioEstimate(alike.plain, place, level), share),
  };
}

/** A part of an excess that may be chance is a part of nothing. */
function excessEstimate(
  part: Interval,
  ratio: Estimate,
  about: { readonly level: number; readonly unit: string; readonly method: string },
): Estimate {
  const { lower } = shownLimits(ratio);
  if (part.value === null || lower === null || lower <= 1)
    return noEstimate({ ...about, reason: 'no excess beyond chance to account for' });
  return toEstimate(part, about);
}
