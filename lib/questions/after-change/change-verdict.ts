import { shownLimits, type Doubt } from '../../../shared/finding.ts';
import type { Ratio } from '../causes/ratios.ts';
import { firmnessRule, verdictOnComparison, type Verdict } from '../firmness.ts';
import type { JudgedLives } from './judged.ts';

export type Direction = 'fewer' | 'more' | 'chance' | 'untold';

/** The ratio an answer rests on: against the other shops where it can be had, else against before alone. */
export const leadingRatio = ({
  contrast,
}: JudgedLives): { readonly ratio: Ratio; readonly against: 'others' | 'before' } =>
  contrast.againstOthers.estimate.value === null
    ? { ratio: contrast.afterBefore, against: 'before' }
    : { ratio: contrast.againstOthers, against: 'others' };

/** Share of the same contrasts, made where nothing was changed, that lie at least as far from 1 for their errors. */
export function asFarWithoutChange(of: JudgedLives): { readonly some: number; readonly all: number } | null {
  const { estimate, variance } = of.contrast.againstOthers;
  if (of.placebos.length === 0 || estimate.value === null || variance === null || estimate.value <= 0) return null;
  const own = Math.abs(Math.log(estimate.value)) / Math.sqrt(variance);
  return { some: of.placebos.filter(({ z }) => Math.abs(z) >= own).length, all: of.placebos.length };
}

/** Up to this share of contrasts without a change may lie as far out. */
export const mostAsFar = 0.1;

/** Fewer or more only where chance, a bad spell before and what happens without a change are all allowed for. */
export function directionOf(of: JudgedLives): Direction {
  const { estimate, pValue } = leadingRatio(of).ratio;
  if (estimate.value === null) return 'untold';
  const { lower, upper } = shownLimits(estimate);
  const apart = pValue !== null && pValue < firmnessRule.firmPValue;
  const clear = (upper !== null && upper < 1) || (lower !== null && lower > 1);
  const far = asFarWithoutChange(of);
  const yardstick = far === null || far.some / far.all <= mostAsFar;
  return apart && clear && yardstick ? (estimate.value < 1 ? 'fewer' : 'more') : 'chance';
}

/** One shop that changed is one experiment, and without others over the same time it is half of one: at most fair. */
export function changeVerdict(of: JudgedLives, event: string, doubts: readonly Doubt[]): Verdict {
  const { ratio, against } = leadingRatio(of);
  const { changed, others } = of.contrast;
  const failures =
    ratio.estimate.value === null
      ? []
      : [...changed, ...(against === 'others' ? others : [])].map((one) => one.failures);
  const pValue = directionOf(of) === 'chance' ? Math.max(ratio.pValue ?? 1, firmnessRule.firmPValue) : ratio.pValue;
  const verdict = verdictOnComparison({ failures, event, pValue, ratio: shownLimits(ratio.estimate) }, doubts);
  const limit =
    of.change.shops.length < 2
      ? 'one shop changed: fair at most'
      : against === 'before'
        ? 'no other shops to compare with: fair at most'
        : null;
  if (verdict.firmness !== 'firm' || limit === null) return verdict;
  return { firmness: 'fair', reason: `${verdict.reason}; ${limit}` };
}
