import { shownLimits, type Doubt, type Estimate } from '../../../shared/finding.ts';
import { counted, type Wording } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** Seals that came off for no stated reason, were each a failure; fails where that leaves the limits shown. */
export function removedUnknownRate(
  removed: number,
  events: number,
  miles: number,
  rate: Estimate,
  words: Wording,
): Doubt | null {
  if (removed === 0 || rate.value === null || miles <= 0) return null;
  const most = ((events + removed) / miles) * 1e6;
  const detail = `${counted(removed, 'seal')} came off for no stated reason and count as not failed; had all failed, ${words.rate(most)} instead of ${words.rate(rate.value)} ${words.perMillion}.`;
  const { upper } = shownLimits(rate);
  return doubt(
    'Removed for no stated reason',
    failsIf(most > (upper ?? Infinity)),
    detail,
    'the reason of those services',
  );
}
