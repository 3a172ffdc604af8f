import type { Failed, LifeRatios } from './excess-share-failed.ts';
import type { ExcessFit } from './excess-share-fit.ts';
import type { ExcessLives } from './excess-share-lives.ts';
import { failedGradient } from './excess-share-gradient.ts';

/** How much each cluster moves the share failed as recorded, and without the exposure; one a cluster. */
export interface FailedInfluence {
  readonly asRecorded: Float64Array;
  readonly without: Float64Array;
}

/**
 * Infinitesimal jackknife of the standardised failures over clusters: what a little more weight on a
 * cluster does to them by its own lives, by the baseline hazard, and by the coefficients (the influence
 * of the fit; Lin & Wei 1989). The squares of the influences add up to the variance that the bootstrap
 * by multipliers of variance 1 comes to. The ratios must stand at the fit's coefficients.
 */
export function failedInfluence(lives: ExcessLives, fit: ExcessFit, ratios: LifeRatios, at: Failed): FailedInfluence {
  const { count } = lives.cluster;
  const { width } = fit.problem;
  const { clusters: direct, slopes } = failedGradient(lives, fit, ratios, at);
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
