import type { Ratio } from './ratios.ts';

export type OtherSide = 'agrees' | 'disagrees' | 'cannot-tell';

/** Standard errors apart at which two ratios of the same lives are held to disagree. */
const farApart = 1.96;
/** Limits wider than this, one over the other, tell neither way. */
const tooWide = 4;

/**
 * Whether the ratio within vehicles says what the adjusted one says. It leaves out what vehicles do
 * not share, so that under no hidden difference between vehicles the variance of the gap is the
 * difference of the two (Hausman 1978, Econometrica 46:1251).
 */
export function otherSideVerdict(adjusted: Ratio, within: Ratio): OtherSide {
  const [all, own] = [adjusted.estimate.value, within.estimate.value];
  if (!all || !own || adjusted.variance === null || within.variance === null) return 'cannot-tell';
  const gap = Math.log(own) - Math.log(all);
  // Robust variances need not stand in order; a tenth of the larger is the least that is taken.
  const error = Math.sqrt(Math.max(within.variance - adjusted.variance, within.variance / 10));
  if (Math.abs(gap) > farApart * error && Math.abs(gap) > Math.log(1.25)) return 'disagrees';
  return Math.exp(2 * farApart * Math.sqrt(within.variance)) > tooWide ? 'cannot-tell' : 'agrees';
}
