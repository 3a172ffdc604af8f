import { shownLimits, type Doubt, type Finding, type Group } from '../../../shared/finding.ts';
import { verdictOnComparison } from '../firmness.ts';
import { failuresOf, type RankedGroup } from './ranked-group.ts';
import { lineName } from './line-doubts.ts';

/** The verdict on the line that stands first, of which the answer speaks. */
export function causesVerdict(
  first: RankedGroup | undefined,
  group: Group | undefined,
  doubts: readonly Doubt[],
): Pick<Finding, 'firmness' | 'firmnessReason'> {
  if (!first || !group || first.ratio.estimate.value === null)
    return { firmness: 'too few', firmnessReason: 'nothing recorded at installation can be compared yet' };
  const { firmness, reason } = verdictOnComparison(
    {
      failures: failuresOf(first),
      event: 'failure',
      pValue: first.pCorrected,
      ratio: shownLimits(first.ratio.estimate),
    },
    doubts,
  );
  return { firmness, firmnessReason: `${lineName(first)}: ${reason}` };
}
