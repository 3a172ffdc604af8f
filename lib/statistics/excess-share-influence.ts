import { weightedHazardOf } from './excess-share-draws.ts';
import { failedByHorizon, type Failed, type LifeRatios } from './excess-share-failed.ts';
import type { ExcessFit } from './excess-share-fit.ts';
import type { ExcessLives } from './excess-share-lives.ts';
import { failedGradient } from './excess-share-gradient.ts';

/** How much each cluster moves the share failed as recorded, and without the exposure; one a cluster. */
export interface FailedInfluence {
  readonly asRecorded: Float64Array;
  readonly without: Float64Array;
}

/** Step of the one-sided slopes in scaled coefficients; the error of a slope is of its order. */
const STEP = 1e-5;

/**
 * Infinitesimal jackknife of the standardised failures over clusters: what a little more weight on a
 * cluster does to them by its own lives, by the baseline hazard, and by the coefficients (the influence
 * of the fit; Lin & Wei 1989). The squares of the influences add up to the variance that the bootstrap
 * by multipliers of variance 1 comes to. The ratios must stand at the fit's coefficients.
 */
export function failedInfluence(lives: ExcessLives, fit: ExcessFit, ratios: LifeRatios, at: Failed): FailedInfluence {
  const { count } = lives.cluster;
  const { width } = fit.problem;
  const direct = failedGradient(lives, fit, ratios, at);
  const slopes = coefficientSlopes(lives, fit, ratios, at);
  const through = (slope: Float64Array, own: Float64Array): Float64Array => {
    const total = own.slice();
    for (let cluster = 0, place = 0; cluster < count; cluster++)
      for (let j = 0; j < width; j++, place++)
        total[cluster] = (total[cluster] as number) + (fit.influence[place] as number) * (slope[j] as number);
    return total;
  };
  return {
    asRecorded: through(slopes.asRecorded, direct.asRecorded),
    without: through(slopes.without, direct.without),
  };
}

/** By how much each coefficient moves both, its effect on the baseline hazard with it. */
function coefficientSlopes(lives: ExcessLives, fit: ExcessFit, ratios: LifeRatios, at: Failed) {
  const { width } = fit.problem;
  const ones = new Float64Array(lives.cluster.count).fill(1);
  const hazardUnder = weightedHazardOf(lives, fit, ratios);
  const failedUnder = failedByHorizon(lives, fit, ratios);
  const slopes = { asRecorded: new Float64Array(width), without: new Float64Array(width) };
  for (let j = 0; j < width; j++) {
    const moved = fit.beta.slice();
    moved[j] = (moved[j] as number) + STEP;
    ratios.moveTo(moved);
    const { asRecorded, without } = failedUnder(hazardUnder(ones), null);
    slopes.asRecorded[j] = (asRecorded - at.asRecorded) / STEP;
    slopes.without[j] = (without - at.without) / STEP;
  }
  ratios.moveTo(fit.beta);
  return slopes;
}
