import type { Doubt } from '../../../shared/finding.ts';
import type { Comparison } from '../comparison.ts';
import { firmnessRule, pWords } from '../firmness.ts';
import { count } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/**
 * The worst and the best of several groups differ by chance alone; the p-value is multiplied by the
 * pairs that could have been picked (Bonferroni). Fails where that takes the difference away.
 */
export function manyComparisons(comparison: Comparison | null): Doubt | null {
  if (!comparison || comparison.pairs < 2 || comparison.rawPValue === null || comparison.pValue === null) return null;
  const { pairs, rawPValue, pValue } = comparison;
  const lost = rawPValue < firmnessRule.firmPValue && pValue >= firmnessRule.firmPValue;
  const detail = `The worst and the best of ${count(pairs)} pairs were picked: ${pWords(rawPValue)} alone, ${pWords(pValue)} once that is allowed for.`;
  return doubt(
    'Many comparisons',
    failsIf(lost),
    detail,
    'asking of the two groups alone, in records not yet looked at',
  );
}
