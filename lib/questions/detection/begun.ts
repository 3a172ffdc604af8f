import type { Estimate } from '../../../shared/finding.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import { fitLife, StatisticsError, type LifeFit } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { firmnessRule } from '../firmness.ts';
import type { OnsetLives } from './onset-lives.ts';

/** When leaks began, by a Weibull fitted to the intervals between dry checks and finding. */
export interface Begun {
  readonly byHorizon: Estimate;
  /** Age by which one in ten had begun to leak. */
  readonly b10: Estimate;
  /** Null where there is none. */
  readonly fit: LifeFit<'weibull'> | null;
}

export function begunBy(lives: OnsetLives, view: View, more = ''): Begun {
  const about = { level: view.level, unit: 'share', method: `Weibull of the intervals in which leaks began${more}` };
  const none = (reason: string): Begun => ({
    byHorizon: noEstimate({ ...about, reason }),
    b10: noEstimate({ ...about, unit: view.axis, reason }),
    fit: null,
  });
  if (lives.failures < firmnessRule.thinFailures)
    return none(`fewer than ${firmnessRule.thinFailures} leaks whose beginning can be placed: ${lives.failures}`);
  try {
    const fit = fitLife(lives, { distribution: 'weibull', level: view.level });
    if (!fit.converged) return none(fit.warnings[0] ?? 'the fit did not converge');
    const { value, lower, upper, robust } = fit.survivalAt(horizonOf(view));
    const turned = { value: 1 - value, lower: below(upper), upper: below(lower) };
    const vehicle = robust && { value: null, lower: below(robust.upper), upper: below(robust.lower) };
    const b10 = fit.lifeAt(0.1);
    return {
      byHorizon: toEstimate(turned, about, vehicle),
      b10: toEstimate(b10, { ...about, unit: view.axis }, b10.robust && { value: null, ...b10.robust }),
      fit,
    };
  } catch (error) {
    if (error instanceof StatisticsError) return none(error.message);
    throw error;
  }
}

const below = (survival: number | null | undefined): number | null =>
  survival === null || survival === undefined || !Number.isFinite(survival) ? null : 1 - survival;
