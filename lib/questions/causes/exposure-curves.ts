import type { Estimate } from '../../../shared/finding.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import { logRank, restrictedMeanDifference, type SurvivalCurve } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { firmnessRule } from '../firmness.ts';
import { gather, placesWhere } from '../gather.ts';
import { lifeCurves } from '../life-curves.ts';
import { failedByHorizon } from '../life-estimates.ts';
import { failedUnderRenewals } from '../life-renewals.ts';
import type { Wording } from '../words/wording.ts';
import type { Compared } from './ranking-ratios.ts';

/** What product-limit curves of both sides say by the horizon, and the log-rank test of the two, unadjusted. */
export interface CurvesOfLevel {
  readonly estimates: Readonly<Record<string, Estimate>>;
  readonly logRank: { readonly statistic: number; readonly pValue: number } | null;
}

/** One set of curves for all levels that are known, read off for each ranked one beside the reference. */
export function exposureCurves(
  { exposure, lives, codes, counts }: Compared,
  view: View,
  words: Wording,
): CurvesOfLevel[] {
  const unknown = exposure.levels.indexOf('unknown');
  const { entry, exit, cause, cluster } = lives.lives;
  const known = placesWhere(codes.length, (place) => codes[place] !== unknown);
  const rows = {
    rows: known.length,
    group: gather(codes, known),
    entry: gather(entry, known),
    exit: gather(exit, known),
    ended: gather(cause, known),
    unit: gather(cluster.codes, known),
  };
  const drawn = lifeCurves(rows, exposure.levels, view);
  const hadNone = drawn.curves.map((curve, level) =>
    failedByHorizon(curve, drawn.starts[level] ?? null, horizonOf(view), words),
  );
  const renewals = failedUnderRenewals(drawn.rows, hadNone, view);
  return exposure.ranked.map(({ level }) => {
    const enough =
      Math.min(counts.failures[level] as number, counts.failures[0] as number) >= firmnessRule.thinFailures;
    return {
      estimates: {
        failedByHorizonHadNoneBeenRenewed: hadNone[level] as Estimate,
        failedByHorizonHadNoneBeenRenewedWithout: hadNone[0] as Estimate,
        failedByHorizonUnderRenewals: renewals[level] as Estimate,
        failedByHorizonUnderRenewalsWithout: renewals[0] as Estimate,
        crudeRestrictedMeanDifference: meanDifference(drawn.curves, drawn.starts, level, view, words),
      },
      logRank: enough ? testOf(rows, level) : null,
    };
  });
}

function meanDifference(
  curves: readonly SurvivalCurve[],
  starts: readonly (number | null)[],
  level: number,
  view: View,
  words: Wording,
): Estimate {
  const horizon = horizonOf(view);
  const method = 'area under the product-limit curves, with it less without, nothing taken into account';
  const about = { level: view.level, unit: words.axis, method };
  const [withIt, without] = [curves[level], curves[0]];
  if (!withIt || !without || starts[level] == null || starts[0] == null)
    return noEstimate({ ...about, reason: 'fewer than 10 lives are at risk at any age' });
  if (starts[level] > 0 || starts[0] > 0)
    return noEstimate({ ...about, reason: 'a curve starts late: fewer than 10 lives are at risk from installation' });
  const found = restrictedMeanDifference(withIt, without, horizon);
  const robust =
    found.robustLower == null ? null : { value: null, lower: found.robustLower, upper: found.robustUpper ?? null };
  return toEstimate(found, { ...about, reason: found.reason ?? 'a curve falls short of the horizon' }, robust);
}

interface Rows {
  readonly group: Int32Array;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly ended: Uint8Array;
}

function testOf({ group, entry, exit, ended }: Rows, level: number): CurvesOfLevel['logRank'] {
  const places = placesWhere(group.length, (place) => group[place] === level || group[place] === 0);
  const { statistic, pValue } = logRank({
    entry: gather(entry, places),
    exit: gather(exit, places),
    event: gather(ended, places).map((code) => (code === 1 ? 1 : 0)),
    group: { levels: ['without', 'with'], codes: gather(group, places).map((code) => (code === 0 ? 0 : 1)) },
  });
  return statistic === null || pValue === null ? null : { statistic, pValue };
}
