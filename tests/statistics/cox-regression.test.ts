import { describe, it } from 'vitest';
import { coxRegression, type CoxRegression } from '../../lib/statistics/cox-regression.ts';
import { check, loadCase } from '../reference/reference.ts';
import { coxCases } from './cox-cases.ts';

/** Compares every number the reference has for a fit. */
function compare(source: string, fit: CoxRegression, want: Record<string, number | number[] | number[][]>): void {
  const about = { method: 'coxRegression', source };
  const near = (got: number | ArrayLike<number>, name: string, tolerance = 1e-7) =>
    check(about, got, want[name] as number, tolerance);
  const robust = 'robust_se' in want;
  near(fit.coefficients, 'coef');
  near(fit.standardErrors, 'se');
  check(about, fit.covariance, (want['vcov'] as number[][]).flat(), 1e-7);
  near(fit.ratio, 'hr');
  near(robust ? (fit.robustLower as Float64Array) : fit.lower, 'hr_lower');
  near(robust ? (fit.robustUpper as Float64Array) : fit.upper, 'hr_upper');
  near(fit.logLikelihood, 'loglik');
  near(fit.nullLogLikelihood, 'loglik_null');
  near(fit.tests.likelihoodRatio.statistic, 'lr_test');
  near(fit.tests.score?.statistic as number, 'score_test');
  near(robust ? (fit.tests.robustWald?.statistic as number) : fit.tests.wald.statistic, 'wald_test');
  near(fit.concordance?.value as number, 'concordance');
}

describe('coxRegression v R survival', () => {
  for (const { id, parts, data } of coxCases)
    for (const part of parts)
      it(`${id} ${part}`, () => {
        const want = loadCase(id).expected[part];
        const fit = coxRegression(data, { ties: want.ties, robustScore: true });
        const { concordance, ...rest } = want;
        compare(`${id} ${part}`, fit, { ...rest, concordance: concordance.value });
        const about = { method: 'coxRegression', source: `${id} ${part}` };
        check(about, fit.concordance?.standardError as number, concordance.se, 1e-7);
        const { concordant, discordant, tiedRisk } = fit.concordance as NonNullable<typeof fit.concordance>;
        check(
          about,
          [concordant, discordant, tiedRisk],
          [concordance.counts.concordant, concordance.counts.discordant, concordance.counts['tied.x']],
          1e-12,
        );
        if (!('robust_se' in want)) return;
        check(about, fit.robustStandardErrors as Float64Array, want.robust_se, 1e-7);
        check(about, fit.robustCovariance as Float64Array, want.robust_vcov.flat(), 1e-7);
        check(about, fit.tests.robustScore?.statistic as number, want.robust_score_test, 1e-7);
      });
});
