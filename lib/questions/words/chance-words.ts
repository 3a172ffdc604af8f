import type { Comparison } from '../comparison.ts';
import { firmnessRule, pWords } from '../firmness.ts';

const [least, most] = firmnessRule.noDifference;

/** Whether a difference is more than chance, and from how many events that is told; chance is left out where no p-value can be had. */
export function chanceWords({ pValue, ratio }: Comparison, behind: string): string {
  if (pValue === null) return `Told by ${behind}.`;
  const same = ratio.lower !== null && ratio.upper !== null && ratio.lower >= least && ratio.upper <= most;
  const unsure = same ? 'is no difference worth the name' : 'may be chance';
  const said = pValue < firmnessRule.firmPValue ? 'is more than chance' : unsure;
  return `That ${said} (${pWords(pValue)}), told by ${behind}.`;
}

/** The same of one ratio, as the end of a sentence. */
export function chanceClause(pValue: number | null): string {
  if (pValue === null) return '';
  return `, ${pValue < firmnessRule.firmPValue ? 'more than chance' : 'which may be chance'} (${pWords(pValue)})`;
}
