import type { Estimate, Series } from '../../../shared/finding.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import { meanCumulativeFunction, type MeanCumulativeCurve } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { ended } from '../life-rows.ts';
import type { RepeatsEvidence } from './repeats-evidence.ts';

const mostPoints = 300;

/**
 * Failures of a wheel end, one after another, against what was watched of it since watching began:
 * lives of unknown start count too. Null where nothing was watched.
 */
export function meanFailures(evidence: RepeatsEvidence, view: View): MeanCumulativeCurve | null {
  const { lives, wheelEnd, lifeNumber } = evidence;
  const ofWheelEnd = new Map<number, number[]>();
  for (let place = 0; place < lives.rows; place++) {
    const own = ofWheelEnd.get(wheelEnd[place] as number) ?? [];
    own.push(place);
    ofWheelEnd.set(wheelEnd[place] as number, own);
  }
  const [entry, exit, event, subject, cluster]: [number[], number[], number[], number[], number[]] = [
    ...[[], [], []],
    ...[[], []],
  ] as unknown as [number[], number[], number[], number[], number[]];
  for (const [end, places] of ofWheelEnd) {
    places.sort((a, b) => (lifeNumber[a] as number) - (lifeNumber[b] as number));
    let watched = 0;
    for (const place of places) {
      const more = lives.exposure[place] as number;
      const failed = lives.ended[place] === ended.failed ? 1 : 0;
      // A failure found before anything was watched belongs to no stretch.
      if (!(more > 0) && (failed === 0 || watched === 0)) continue;
      entry.push(watched);
      watched += Math.max(more, 0);
      exit.push(watched);
      event.push(failed);
      subject.push(end);
      cluster.push(lives.unit[place] as number);
    }
  }
  if (exit.length === 0) return null;
  return meanCumulativeFunction({ entry, exit, event, subject, cluster }, { level: view.level })[0] ?? null;
}

export function meanByHorizon(curve: MeanCumulativeCurve | null, view: View): Estimate {
  const about = { level: view.level, unit: 'failures', method: 'mean cumulative function, wheel ends as subjects' };
  const horizon = horizonOf(view);
  if (!curve || curve.end < horizon)
    return noEstimate({ ...about, reason: 'no wheel end was watched as far as the horizon' });
  const at = curve.time.findLastIndex((time) => time <= horizon);
  if (at < 0) return toEstimate({ value: 0, lower: 0, upper: null }, about);
  const own = { value: curve.mean[at] as number, lower: curve.lower[at] as number, upper: curve.upper[at] as number };
  const { robustLower, robustUpper } = curve;
  const vehicle =
    robustLower && robustUpper
      ? { value: null, lower: robustLower[at] as number, upper: robustUpper[at] as number }
      : null;
  return toEstimate(own, about, vehicle);
}

export function meanSeries(curve: MeanCumulativeCurve | null, view: View): Series[] {
  if (!curve) return [];
  const every = Math.max(1, Math.ceil(curve.time.length / mostPoints));
  const kept = [...curve.time.keys()].filter((at) => at % every === 0 || at === curve.time.length - 1);
  const take = (column: Float64Array) => kept.map((at) => column[at] as number);
  const { time, mean, atRisk, lower, upper, robustLower = lower, robustUpper = upper } = curve;
  return [
    {
      ...{ name: 'mean-failures', group: 'all' },
      columns: {
        ...{ [view.axis]: take(time), mean: take(mean), atRisk: take(atRisk) },
        lower: kept.map((at) => Math.min(lower[at] as number, robustLower[at] as number)),
        upper: kept.map((at) => Math.max(upper[at] as number, robustUpper[at] as number)),
      },
    },
  ];
}
