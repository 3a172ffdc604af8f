import type { Comparison } from '../comparison.ts';
import { firmnessRule, pWords } from '../firmness.ts';

const [least, most] = firmnessRule.noDifference;

/** Whether a difference is more than chance, as a sentence; empty where no p-value can be had. */
export function chanceWords({ pValue, ratio }: Comparison): string {
  if (pValue === null) return '';
  if (pValue < firmnessRule.firmPValue) return `That is more than chance (${pWords(pValue)}).`;
  const same = ratio.lower !== null && ratio.upper !== null && ratio.lower >= least && ratio.upper <= most;
  return same ? `That is no difference worth the name (${pWords(pValue)}).` : `That may be chance (${pWords(pValue)}).`;
}
