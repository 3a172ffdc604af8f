import type { Estimate } from '../../shared/finding.ts';
import { horizonOf, type View } from '../../shared/view.ts';
import { cumulativeIncidence, type IncidenceCurve } from '../statistics/index.ts';
import { keptRows, type CurveRows } from './curve-rows.ts';
import { toEstimate } from './estimate.ts';
import { ended } from './life-rows.ts';

const method = 'cumulative incidence, renewal for any other reason competing';

/**
 * Share failed by the horizon under today's renewals: cumulative incidence (Aalen–Johansen), a
 * renewal for whatever other reason ending a life as surely as a failure. Leaving the fleet and the
 * end of the records censor.
 * @param hadNone the estimates had none been renewed, by group: where they cannot be had neither can
 *   these, and where no life failed their bound holds for these too
 */
export function failedUnderRenewals(rows: CurveRows, hadNone: readonly Estimate[], view: View): Estimate[] {
  const { level, interval } = view;
  const horizon = horizonOf(view);
  // What happens beyond the horizon moves nothing before it.
  const seen = keptRows(rows, (row) => (rows.entry[row] as number) < horizon);
  const { entry, group, cluster } = seen;
  const exit = seen.exit.map((end) => Math.min(end, horizon + 1));
  const event = seen.cause.map((cause, row) =>
    (seen.exit[row] as number) > horizon || cause === ended.running ? 0 : cause === ended.failed ? 1 : 2,
  );
  const curves = cumulativeIncidence({ entry, exit, event, group, cluster }, { level, interval, causes: [1] });
  return hadNone.map((estimate, index) => {
    const curve = curves.find(({ group: label, cause }) => cause === 1 && label === group.levels[index]);
    if (estimate.value === null || !curve) return { ...estimate, method };
    return atHorizon(curve, horizon, level);
  });
}

function atHorizon(curve: IncidenceCurve, horizon: number, level: number): Estimate {
  const beyond = curve.time.findIndex((time) => time > horizon);
  const place = (beyond < 0 ? curve.time.length : beyond) - 1;
  const at = (values: Float64Array | undefined) => (values && place >= 0 ? (values[place] as number) : null);
  const { robustLower, robustUpper } = curve;
  const vehicle = robustLower ? { value: null, lower: at(robustLower), upper: at(robustUpper) } : null;
  const about = { level, unit: 'share', method };
  if (place < 0) return toEstimate({ value: 0, lower: 0, upper: 1 }, about);
  return toEstimate({ value: at(curve.incidence), lower: at(curve.lower), upper: at(curve.upper) }, about, vehicle);
}
