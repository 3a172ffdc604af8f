import { shownLimits, type Doubt, type Estimate } from '../../../shared/finding.ts';
import { counted, type Wording } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** What there is to be counted otherwise; a rate is events by what was watched, times the factor. */
interface Removed {
  readonly removed: number;
  readonly events: number;
  readonly watched: number;
  readonly factor: number;
}

/** Seals that came off for no stated reason, were each a failure; fails where that leaves the limits shown. */
export function removedUnknownRate(
  { removed, events, watched, factor }: Removed,
  rate: Estimate,
  words: Wording,
): Doubt | null {
  if (removed === 0 || rate.value === null || watched <= 0) return null;
  const most = ((events + removed) / watched) * factor;
  const detail = `${counted(removed, 'seal')} came off for no stated reason and count as not failed; had all failed, ${words.rate(most)} instead of ${words.rate(rate.value)} ${words.per}.`;
  const { upper } = shownLimits(rate);
  return doubt(
    'Removed for no stated reason',
    failsIf(most > (upper ?? Infinity)),
    detail,
    'the reason of those services',
  );
}
