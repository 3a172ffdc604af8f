import { earlyOf, horizonOf } from '../../../shared/view.ts';
import type { Estimate } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import type { CausesEvidence } from './causes-evidence.ts';
import { excessOf } from './excess.ts';
import { exposureCurves } from './exposure-curves.ts';
import { jointRatios } from './joint-ratios.ts';
import { sameVehicleRatios, type SameVehicle } from './other-side.ts';
import type { RankedGroup } from './ranked-group.ts';
import { ratiosOfCodes, type Compared } from './ranking-ratios.ts';
import { sayDrawn, Samples } from './samples.ts';
import { standardisedMeanDifference } from './standardised-means.ts';
import { shadowRanking, type ShadowRanking } from './shadow-ranking.ts';
import { earlyAndLater, type EarlyAndLater } from './split-ratios.ts';

/** What a line is judged by beyond its ratio. */
export interface Beside {
  readonly split: EarlyAndLater;
  readonly vehicle: { readonly ratio: SameVehicle['ratios'][number]; readonly pairs: number };
  readonly axle: { readonly ratio: SameVehicle['ratios'][number]; readonly pairs: number };
}

export interface RestOfRanking {
  readonly beside: ReadonlyMap<RankedGroup, Beside>;
  readonly shadows: ShadowRanking;
}

/** Fills every line with what takes longer than its ratio. */
export async function restOfRanking(
  asking: Asking,
  { lives }: CausesEvidence,
  groups: readonly RankedGroup[],
): Promise<RestOfRanking> {
  const { view, signal, onProgress } = asking;
  const beside = new Map<RankedGroup, Beside>();
  const samples = new Samples();
  const every = [...new Set(groups.map(({ compared }) => compared))];
  for (const [done, compared] of every.entries()) {
    onProgress?.({ done, of: every.length, doing: 'early and later, the other side, excess failures' });
    await breathe(signal);
    const own = groups.filter((group) => group.compared === compared);
    const part = samples.of(compared);
    fill(part, own, asking, beside);
    if (part !== compared) sayDrawn(own, part.lives.rows, compared.lives.rows);
  }
  const shadows = await shadowRanking(asking, groups, samples);
  await breathe(signal);
  const joint = jointRatios(lives, every, view.level);
  for (const [at, compared] of every.entries())
    groups
      .filter((group) => group.compared === compared)
      .forEach((group, ranked) => {
        const ratio = joint[at]?.[ranked];
        if (ratio) group.estimates['hazardRatioWithOthers'] = ratio.estimate;
      });
  return { beside, shadows };
}

function fill(
  compared: Compared,
  own: readonly RankedGroup[],
  { view, words, signal }: Asking,
  beside: Map<RankedGroup, Beside>,
): void {
  const early = earlyOf(view);
  const split = earlyAndLater(compared, view.level, early, words.age(early));
  const curves = exposureCurves(compared, view, words);
  const vehicle = sameVehicleRatios(compared, view.level, 'cluster');
  const axle = sameVehicleRatios(compared, view.level, 'axle');
  const excess = excessOf(compared, { level: view.level, horizon: horizonOf(view), early, signal });
  const bounds = boundsIfUnknown(compared, view.level);
  own.forEach((group, at) => {
    const [parted, curve, more] = [split[at], curves[at], excess[at]];
    const [inVehicle, onAxle] = [vehicle.ratios[at], axle.ratios[at]];
    if (!parted || !curve || !more || !inVehicle || !onAxle) return;
    Object.assign(group.estimates, {
      ...{ earlyHazardRatio: parted.early, laterHazardRatio: parted.later },
      ...{ otherSideHazardRatio: onAxle.estimate, sameVehicleHazardRatio: inVehicle.estimate },
      ...{ excessShareAtHorizon: more.share, excessFailuresPerThousand: more.perThousand },
      ...curve.estimates,
      restrictedMeanDifference: standardisedMeanDifference(compared, at, view, words),
      ...bounds,
    });
    const [pairs, vehicles] = [axle.discordant[at], vehicle.discordant[at]];
    Object.assign(group.counts, {
      ...{ discordantPairs: pairs?.pairs ?? 0, discordantPairFailures: pairs?.failures ?? 0 },
      ...{ discordantVehicles: vehicles?.pairs ?? 0, discordantVehicleFailures: vehicles?.failures ?? 0 },
      ...(curve.logRank ? { logRankStatistic: curve.logRank.statistic, logRankPValue: curve.logRank.pValue } : {}),
    });
    beside.set(group, {
      split: parted,
      vehicle: { ratio: inVehicle, pairs: vehicles?.failures ?? 0 },
      axle: { ratio: onAxle, pairs: pairs?.pairs ?? 0 },
    });
  });
}

/** The adjusted ratio had every unknown life had the deviation, and had none; nothing where all are known. */
function boundsIfUnknown(compared: Compared, level: number): Record<string, Estimate> {
  const { exposure, codes, counts } = compared;
  const unknown = exposure.levels.indexOf('unknown');
  if (exposure.deviation === null || unknown < 0 || counts.lives[unknown] === 0) return {};
  const read = (as: number): Estimate | undefined => {
    const recoded = codes.map((code) => (code === unknown ? as : code));
    return ratiosOfCodes(compared, level, recoded, ['no', 'yes'])[0]?.estimate;
  };
  const [yes, no] = [read(1), read(0)];
  return yes && no ? { hazardRatioIfUnknownYes: yes, hazardRatioIfUnknownNo: no } : {};
}
