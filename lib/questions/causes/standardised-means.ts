import { horizonOf, type View } from '../../../shared/view.ts';
import type { Estimate } from '../../../shared/finding.ts';
import { kaplanMeier, restrictedMeanDifference, standardisingWeights } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { placesWhere } from '../gather.ts';
import { curveStarts } from '../curve-rows.ts';
import type { Wording } from '../words/wording.ts';
import { reasonAgainst, takenInto, type Compared } from './ranking-ratios.ts';
import { someLives } from './compared-lives.ts';

/**
 * Mean life within the horizon of the lives with it, less that of lives without it brought to the same mix of all
 * that is taken into account: areas under product-limit curves, so that no ratio need be the same at every age.
 */
export function standardisedMeanDifference(compared: Compared, ranked: number, view: View, words: Wording): Estimate {
  const method = `area under product-limit curves, lives without it weighted to the mix of those with it: ${takenInto(compared.lives)}; vehicles as clusters`;
  const about = { level: view.level, unit: words.axis, method };
  const reason = reasonAgainst(compared, ranked);
  if (reason !== null) return noEstimate({ ...about, reason });
  const level = compared.exposure.ranked[ranked]?.level ?? 0;
  const places = placesWhere(compared.codes.length, (place) => {
    const code = compared.codes[place];
    return code === level || code === 0;
  });
  const { entry, exit, event, cause, cluster, covariates, strata } = someLives(compared.lives.lives, places);
  const exposed = Uint8Array.from(places, (place) => (compared.codes[place] === level ? 1 : 0));
  const starts = curveStarts(
    { rows: places.length, entry, exit, ended: cause, group: Int32Array.from(exposed), unit: cluster.codes },
    2,
  );
  if (starts.some((start) => start === null || start > 0))
    return noEstimate({ ...about, reason: 'a curve starts late: fewer than 10 lives are at risk from installation' });
  const weights = standardisingWeights({ exposed, covariates, strata });
  if (weights.reason !== null) return noEstimate({ ...about, reason: weights.reason });
  const group = { levels: ['without', 'with'], codes: Int32Array.from(exposed) };
  const [without, withIt] = kaplanMeier(
    { entry, exit, event, group, weight: weights.weight, cluster },
    { level: view.level, interval: view.interval },
  );
  if (!without || !withIt) throw new Error('two groups give two curves');
  const found = restrictedMeanDifference(withIt, without, horizonOf(view));
  if (found.value === null || found.robustLower == null || found.robustUpper == null)
    return noEstimate({ ...about, reason: found.reason ?? 'a curve falls short of the horizon' });
  // Greenwood's error takes a weight for a count: only the one that allows for vehicles is right here.
  return toEstimate({ value: found.value, lower: found.robustLower, upper: found.robustUpper }, about);
}
