import { shownLimits, type Firmness } from '../../../shared/finding.ts';
import { firmnessRule } from '../firmness.ts';
import { firmnessOf, type RankedGroup } from './ranked-group.ts';

/** The lower limit shown, by which lines of one firmness stand; a line without a ratio last. */
const lowerOf = ({ ratio }: RankedGroup): number =>
  ratio.estimate.value === null ? -1 : (shownLimits(ratio.estimate).lower ?? 0);

/** Whether it goes with more failures beyond chance, the number compared allowed for. */
const costsLife = ({ ratio, pCorrected }: RankedGroup): boolean =>
  (pCorrected ?? 1) < firmnessRule.firmPValue && (ratio.estimate.value ?? 0) > 1;

/** Firm and fair alike: blanks in the record that keep a large ratio from firm must not put a small one above it. */
const standing: Readonly<Record<Firmness, number>> = { firm: 0, fair: 0, thin: 1, 'too few': 2 };

/**
 * What goes with more failures beyond chance, then the rest; of each what rests on enough failures first, then by
 * the lower limit of the adjusted ratio: what is surely large stands above what may be.
 */
export function rankedOrder(groups: readonly RankedGroup[]): RankedGroup[] {
  const failures = ({ compared, ranked }: RankedGroup) => compared.counts.failures[ranked.level] as number;
  return [...groups].sort(
    (a, b) =>
      Number(costsLife(b)) - Number(costsLife(a)) ||
      standing[firmnessOf(a)] - standing[firmnessOf(b)] ||
      lowerOf(b) - lowerOf(a) ||
      failures(b) - failures(a) ||
      (a.label < b.label ? -1 : 1),
  );
}
