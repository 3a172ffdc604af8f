import type { Estimate } from '../../../shared/finding.ts';
import type { CoxRegression } from '../../statistics/index.ts';
import { largerPValue } from '../comparison.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { firmnessRule } from '../firmness.ts';

/** A ratio of a ranked side to the reference, with what its firmness is judged by. */
export interface Ratio {
  readonly estimate: Estimate;
  /** The larger of the model's and the vehicle-robust one; null where no ratio is given. */
  readonly pValue: number | null;
  /** Variance of the log ratio, the larger of the two; null without one. */
  readonly variance: number | null;
}

export interface RatioAbout {
  readonly level: number;
  readonly method: string;
}

export const noRatio = (about: RatioAbout, reason: string): Ratio => ({
  estimate: noEstimate({ ...about, unit: 'ratio', reason }),
  pValue: null,
  variance: null,
});

/** Why failures are too few for a ratio; null where they are not. */
export function tooFewFor(withIt: number, without: number): string | null {
  const few = (failures: number, side: string) =>
    `fewer than ${firmnessRule.thinFailures} failures ${side} it: ${failures}`;
  if (withIt < firmnessRule.thinFailures) return few(withIt, 'with');
  return without < firmnessRule.thinFailures ? few(without, 'without') : null;
}

const limit = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;

const inseparable = 'it never differs among lives at risk together, or goes with what is taken into account';

/** The ratio of one term of a fit; one that nothing bounds has no value. */
export function ratioOfTerm(fit: CoxRegression, term: string, about: RatioAbout): Ratio {
  const at = fit.terms.indexOf(term);
  if (at < 0)
    return noRatio(
      about,
      fit.warnings.some((warning) => warning.term === term) ? inseparable : 'no life at risk tells of it',
    );
  if (!fit.converged) return noRatio(about, 'the model has no maximum');
  const [value, lower, upper] = [fit.ratio[at] as number, limit(fit.lower[at]), limit(fit.upper[at])];
  if ((lower ?? 0) === 0 && upper === null) return noRatio(about, 'nothing bounds the ratio');
  const interval = { value: Number.isFinite(value) ? value : null, lower, upper };
  const settled = Number.isFinite(fit.standardErrors[at]);
  const vehicle =
    settled && fit.robustLower && fit.robustUpper
      ? { value: null, lower: limit(fit.robustLower[at]), upper: limit(fit.robustUpper[at]) }
      : null;
  const error = Math.max(fit.standardErrors[at] as number, fit.robustStandardErrors?.[at] ?? 0);
  return {
    estimate: toEstimate(interval, { ...about, unit: 'ratio', reason: 'every failure here was with it' }, vehicle),
    pValue: settled ? largerPValue(fit.pValue[at] as number, fit.robustPValue?.[at]) : null,
    variance: settled ? error ** 2 : null,
  };
}
