import type { View } from '../../../shared/view.ts';
import { fitLife, StatisticsError, type FittedLife, type LifeFit, type MixtureFit } from '../../statistics/index.ts';
import { firmnessRule } from '../firmness.ts';
import { weibullEstimates, type GroupLives } from '../life-estimates.ts';

/** The life of a group as one shape, and as early failures beside wear-out where there are failures enough. */
export interface FittedLives {
  readonly weibull: LifeFit<'weibull'>;
  readonly mixture: MixtureFit | null;
  /** The two parts where the lives call for them, else the one shape. */
  readonly used: LifeFit<'weibull'> | MixtureFit;
}

/** The fits, or why there are none. */
export function fittedLives(
  lives: GroupLives,
  view: View,
  twoPartsToo: (weibull: LifeFit<'weibull'>) => boolean,
): FittedLives | string {
  const failures = lives.event.reduce((sum, one) => sum + one, 0);
  const { fit: weibull, shape } = weibullEstimates(lives, view);
  if (!weibull) return shape.reason ?? 'the life could not be fitted';
  const mixture = failures >= firmnessRule.firmFailures && twoPartsToo(weibull) ? twoParts(lives, view.level) : null;
  return { weibull, mixture, used: mixture?.supported && mixture.converged ? mixture : weibull };
}

function twoParts(lives: GroupLives, level: number): MixtureFit | null {
  try {
    return fitLife(lives, { distribution: 'weibull-mixture', level });
  } catch (error) {
    if (error instanceof StatisticsError) return null;
    throw error;
  }
}

/**
 * The fit with, for each parameter, the larger of the model's own error and that which allows for
 * vehicles: several wheel ends of one vehicle can make a fit less sure, never surer.
 */
export function withWiderErrors(fit: LifeFit<'weibull'> | MixtureFit): FittedLife {
  const { covariance, robustCovariance, values } = fit.working;
  if (!covariance || !robustCovariance) return fit;
  const size = values.length;
  const own = (matrix: Float64Array, at: number) => matrix[at * size + at] as number;
  const widened = Float64Array.from(values, (_, at) =>
    Math.sqrt(Math.max(1, own(covariance, at) / own(robustCovariance, at))),
  );
  const wider = robustCovariance.map(
    (value, place) => value * (widened[Math.floor(place / size)] as number) * (widened[place % size] as number),
  );
  return { ...fit, working: { ...fit.working, robustCovariance: wider } };
}

/** The age up to which so many lives were watched: what a fit says beyond rests on its shape. */
export function watchedTo(exit: Float64Array, least: number): number {
  const ordered = exit.slice().sort();
  return ordered[Math.max(0, ordered.length - least)] ?? 0;
}

/** A seed of the data alone: the same records give the same draws. */
export function seedOf(fingerprint: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < fingerprint.length; at++) hash = Math.imul(hash ^ fingerprint.charCodeAt(at), 0x01000193) >>> 0;
  return hash;
}
