import { firmnessWords, shownLimits } from '../../../shared/finding.ts';
import { firmnessRule } from '../firmness.ts';
import { firmnessOf, type RankedGroup } from './ranked-group.ts';

/** The lower limit shown, by which lines of one firmness stand; a line without a ratio last. */
const lowerOf = ({ ratio }: RankedGroup): number =>
  ratio.estimate.value === null ? -1 : (shownLimits(ratio.estimate).lower ?? 0);

/** Whether it goes with more failures beyond chance, the number compared allowed for. */
const costsLife = ({ ratio, pCorrected }: RankedGroup): boolean =>
  (pCorrected ?? 1) < firmnessRule.firmPValue && (ratio.estimate.value ?? 0) > 1;

/**
 * What goes with more failures beyond chance, then the rest; of each firm first, then by the lower limit
 * of the adjusted ratio: what is surely large stands above what may be.
 */
export function rankedOrder(groups: readonly RankedGroup[]): RankedGroup[] {
  const firmness = (group: RankedGroup) => firmnessWords.indexOf(firmnessOf(group));
  const failures = ({ compared, ranked }: RankedGroup) => compared.counts.failures[ranked.level] as number;
  return [...groups].sort(
    (a, b) =>
      Number(costsLife(b)) - Number(costsLife(a)) ||
      firmness(a) - firmness(b) ||
      lowerOf(b) - lowerOf(a) ||
      failures(b) - failures(a) ||
      (a.label < b.label ? -1 : 1),
  );
}
