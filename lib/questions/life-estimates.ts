import type { Estimate } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';
import {
  quantile,
  restrictedMean,
  StatisticsError,
  survivalAt,
  fitLife,
  type Interval,
  type LifeFit,
  type SurvivalCurve,
} from '../statistics/index.ts';
import { noEstimate, toEstimate } from './estimate.ts';
import type { Wording } from './words/wording.ts';
import { percentSign } from '../../shared/percent-sign.ts';

/** Says of whom a curve tells: `product-limit, of lives that reached 12,000 miles`. */
const ofWhom = (method: string, start: number, words: Wording): string =>
  start > 0 ? `${method}, of lives that reached ${words.age(start)}` : method;

const noCurve = 'fewer than 10 lives are at risk at any age';
const robust = (found: {
  readonly robustLower?: number | null;
  readonly robustUpper?: number | null;
}): Interval | null =>
  found.robustLower === undefined ? null : { value: null, lower: found.robustLower, upper: found.robustUpper ?? null };

/** Age by which a share has failed (0.1: B10), had none been renewed. */
export function lifeAtShare(curve: SurvivalCurve, start: number | null, share: number, words: Wording): Estimate {
  const about = {
    level: curve.level,
    unit: words.axis,
    method: ofWhom('product-limit, first age at or below', start ?? 0, words),
  };
  if (start === null) return noEstimate({ ...about, reason: noCurve });
  const found = quantile(curve, share);
  const last = curve.time[curve.time.length - 1] ?? 0;
  const reached = 1 - (curve.survival[curve.survival.length - 1] ?? 1);
  const reason = `only ${(reached * 100).toFixed(1)}${percentSign} have failed by ${words.age(last)}, as far as the lives go`;
  return toEstimate(found, { ...about, reason }, robust(found));
}

/** Mean age before failure up to the horizon, had none been renewed. */
export function meanToHorizon(curve: SurvivalCurve, start: number | null, horizon: number, words: Wording): Estimate {
  const about = {
    level: curve.level,
    unit: words.axis,
    method: ofWhom('area under the product-limit curve', start ?? 0, words),
  };
  if (start === null) return noEstimate({ ...about, reason: noCurve });
  const found = restrictedMean(curve, horizon);
  return toEstimate(found, { ...about, reason: shortOf(curve, start, horizon, words) }, robust(found));
}

const shortOf = (curve: SurvivalCurve, start: number, horizon: number, words: Wording): string => {
  const last = curve.time[curve.time.length - 1];
  if (start >= horizon) return `the curve starts at ${words.age(start)}, beyond the horizon`;
  return `the longest life watched ends at ${words.age(last ?? 0)}, short of the horizon`;
};

/** Share failed by the horizon, had none been renewed: 1 − product-limit. */
export function failedByHorizon(curve: SurvivalCurve, start: number | null, horizon: number, words: Wording): Estimate {
  const about = {
    level: curve.level,
    unit: 'share',
    method: ofWhom(`1 − product-limit (${curve.interval})`, start ?? 0, words),
  };
  if (start === null) return noEstimate({ ...about, reason: noCurve });
  if (start >= horizon) return noEstimate({ ...about, reason: shortOf(curve, start, horizon, words) });
  const point = survivalAt(curve, horizon);
  const turned = (value: number | null | undefined) => (value === null || value === undefined ? null : 1 - value);
  const vehicle = point.robustLower === undefined ? null : interval(null, point.robustUpper, point.robustLower, turned);
  return toEstimate(
    interval(point.survival, point.upper, point.lower, turned),
    { ...about, reason: shortOf(curve, start, horizon, words) },
    vehicle,
  );
}

type Maybe = number | null | undefined;
const interval = (value: Maybe, lower: Maybe, upper: Maybe, turned: (value: Maybe) => number | null): Interval => ({
  value: turned(value),
  lower: turned(lower),
  upper: turned(upper),
});

export interface ShapeAndScale {
  readonly shape: Estimate;
  readonly scale: Estimate;
  /** The fit, for the check against the curve; null where there is none. */
  readonly fit: LifeFit<'weibull'> | null;
}

/** Lives of one group as the fit takes them: from their own entry, not from where the curve starts. */
export interface GroupLives {
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  readonly cluster: Int32Array;
}

/** Weibull shape (no unit) and scale (as ages are counted) by maximum likelihood with late entry. */
export function weibullEstimates(lives: GroupLives, view: View): ShapeAndScale {
  const method = 'Weibull maximum likelihood, late entry';
  const about = (unit: string) => ({ level: view.level, unit, method });
  const none = (reason: string): ShapeAndScale => ({
    shape: noEstimate({ ...about('none'), reason }),
    scale: noEstimate({ ...about(view.axis), reason }),
    fit: null,
  });
  const failures = lives.event.reduce((sum, value) => sum + value, 0);
  if (failures < 2) return none('fewer than 2 failures');
  try {
    const fit = fitLife(lives, { distribution: 'weibull', level: view.level });
    if (!fit.converged) return none(fit.warnings[0] ?? 'the fit did not converge');
    const { shape, scale } = fit.parameters;
    return {
      shape: toEstimate(shape, about('none'), shape.robust && { value: null, ...shape.robust }),
      scale: toEstimate(scale, about(view.axis), scale.robust && { value: null, ...scale.robust }),
      fit,
    };
  } catch (error) {
    if (error instanceof StatisticsError) return none(error.message);
    throw error;
  }
}
