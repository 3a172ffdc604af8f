import type { Estimate } from '../../../shared/finding.ts';
import type { ObservedExpected } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { firmnessRule } from '../firmness.ts';

const ratioMethod =
  'observed over expected, coefficients fitted with terms for the groups and predicted without; exact limits, and by vehicle with the error of the expected';

/** Observed over expected, the wider limits shown; under five failures the exact bounds alone. */
export function ratioEstimate(
  found: ObservedExpected | null,
  place: number,
  level: number,
  refusal: string | null = null,
): Estimate {
  const about = { level, unit: 'ratio', method: ratioMethod };
  if (refusal !== null) return noEstimate({ ...about, reason: refusal });
  if (!found) return noEstimate({ ...about, reason: 'no failure was seen' });
  const at = (column: readonly (number | null)[]) => column[place] ?? null;
  const exact = { value: at(found.ratio), lower: at(found.lower), upper: at(found.upper) };
  if (exact.value === null) return noEstimate({ ...about, reason: 'no failure is expected' });
  if ((found.observed[place] as number) < firmnessRule.thinFailures)
    return toEstimate(
      { ...exact, value: null },
      { ...about, reason: `fewer than ${firmnessRule.thinFailures} failures` },
    );
  const robust = { value: null, lower: at(found.robustLower), upper: at(found.robustUpper) };
  return toEstimate(exact, about, robust);
}

/** Failures expected, with the error that the baseline and the coefficients leave in it. */
export function expectedEstimate(found: ObservedExpected | null, place: number, level: number): Estimate {
  const method = 'Σ [Λ(exit|x) − Λ(entry|x)], predicted without the terms for the groups; by vehicle';
  const about = { level, unit: 'failures', method };
  if (!found) return noEstimate({ ...about, reason: 'no failure was seen' });
  const at = (column: readonly (number | null)[]) => column[place] ?? null;
  const limits = { lower: at(found.expectedLower), upper: at(found.expectedUpper) };
  return toEstimate({ value: found.expected[place] as number, ...limits }, about);
}
