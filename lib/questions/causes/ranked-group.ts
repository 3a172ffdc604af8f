import { shownLimits, type Estimate, type Firmness, type Group } from '../../../shared/finding.ts';
import { eValue, requiredEvents } from '../../statistics/index.ts';
import { noEstimate } from '../estimate.ts';
import { firmnessOfComparison, firmnessRule } from '../firmness.ts';
import type { RankedLevel } from './exposure.ts';
import type { Compared } from './ranking-ratios.ts';
import type { Ratio } from './ratios.ts';

/** One line of the ranking as it is made, part by part. */
export interface RankedGroup {
  readonly compared: Compared;
  readonly ranked: RankedLevel;
  readonly label: string;
  readonly ratio: Ratio;
  readonly crude: Ratio;
  /** Corrected for all that is ranked; null where no ratio is given. */
  pCorrected: number | null;
  readonly counts: Record<string, number>;
  readonly estimates: Record<string, Estimate>;
  readonly notes: string[];
  /** Doubts about this line alone that fail, by name; any keeps it from firm. */
  readonly failing: Set<string>;
}

/** Failures with and without, of which the fewer decides. */
export const failuresOf = ({ compared: { counts }, ranked }: RankedGroup): readonly [number, number] => [
  counts.failures[ranked.level] as number,
  counts.failures[0] as number,
];

export function firmnessOf(group: RankedGroup): Firmness {
  const { value } = group.ratio.estimate;
  const least = Math.min(...failuresOf(group));
  if (value === null && least >= firmnessRule.thinFailures) return 'too few';
  return firmnessOfComparison({
    least,
    pValue: group.pCorrected,
    ratio: value === null ? null : shownLimits(group.ratio.estimate),
    doubted: group.failing.size > 0,
  });
}

/** How strong something unseen would have to be, with the exposure and the failure alike, to bring the ratio to 1. */
export function hiddenStrength({ estimate }: Ratio): Estimate {
  const about = { level: estimate.level, unit: 'ratio', method: 'E-value (VanderWeele & Ding), of the wider limits' };
  const { value } = estimate;
  if (value === null || value <= 0) return noEstimate({ ...about, reason: estimate.reason ?? 'no ratio to explain' });
  const { lower, upper } = shownLimits(estimate);
  const strength = eValue({ value, lower: lower ?? 0, upper });
  return { ...about, value: strength.value, lower: strength.limit, upper: null };
}

/** A ratio smaller than this either way is not planned for: what would tell 1.5 is said instead. */
const plannedRatio = 1.5;

/**
 * Failures of these lives still to come before the ratio would be firm with 80 % power: Schoenfeld's count at the
 * corrected level, widened by what the covariates and the vehicles cost, and 30 on each side.
 */
export function eventsNeeded(group: RankedGroup, family: number, level: number): Record<string, number> {
  const [withIt, without] = failuresOf(group);
  const all = withIt + without;
  const shortOfThirty = Math.max(0, firmnessRule.firmFailures - withIt, firmnessRule.firmFailures - without);
  const { value } = group.ratio.estimate;
  const { variance } = group.ratio;
  if (value === null || value <= 0 || variance === null) return {};
  const small = Math.max(value, 1 / value) < firmnessRule.noDifference[1];
  const ratio = small ? plannedRatio : value;
  const share = withIt / all;
  const inflation = Math.max(1, variance * all * share * (1 - share));
  const { events } = requiredEvents({ ratio }, { share, level: 1 - (1 - level) / Math.max(1, family), inflation });
  return {
    eventsNeededRatio: ratio,
    eventsForFirm: events,
    eventsNeeded: Math.ceil(Math.max(0, events - all, shortOfThirty / Math.min(share, 1 - share))),
  };
}

/** The line as the finding has it. */
export function toGroup(group: RankedGroup): Group {
  const { compared, ranked, counts, estimates, notes } = group;
  return {
    label: ranked.label,
    by: { ...ranked.by },
    lives: compared.counts.lives[ranked.level] as number,
    failures: compared.counts.failures[ranked.level] as number,
    miles: compared.counts.miles[ranked.level] as number,
    firmness: firmnessOf(group),
    // Copies: the first answer is out before the slow parts fill these.
    ...{ counts: { ...counts }, estimates: { ...estimates }, notes: [...notes] },
  };
}
