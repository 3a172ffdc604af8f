import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import { eventRate } from '../../statistics/index.ts';
import { ageAxes } from '../age-axis.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { verdictOnComparison } from '../firmness.ts';
import { gather, placesWhere } from '../gather.ts';
import { deviationCounts, recordingShare } from './recording.ts';
import { explainedEstimates } from './explained-estimates.ts';
import { expectedEstimate, ratioEstimate } from './ratio-estimates.ts';
import type { GroupsAbout, ShopGroup } from './shop-group.ts';

/** One group with its counts and estimates. */
export function shopNumbers(
  about: GroupsAbout,
  { place, compared, pValue }: Omit<ShopGroup, 'group'>,
  refusal: string | null,
): Group {
  const { view, evidence, alike, shrunken, comebacks, event } = about;
  const { level } = view;
  const own = placesWhere(evidence.rows.length, (at) => evidence.groups.codes[at] === place);
  const total = evidence.event.reduce((sum, one) => sum + one, 0);
  const failures = own.reduce((sum, at) => sum + (evidence.event[at] as number), 0);
  const label = evidence.groups.levels[place] as string;
  const ratio = ratioEstimate(alike?.plain ?? null, place, level, refusal);
  const posterior = refusal === null ? (shrunken?.ratio[place] ?? null) : null;
  const estimates: Record<string, Estimate> = {
    observedFailures: exactly(failures, level),
    expectedFailures: expectedEstimate(alike?.plain ?? null, place, level),
    observedToExpected: ratio,
    shrunkenRatio: posterior
      ? toEstimate(posterior, { level, unit: 'ratio', method: shrunkenMethod })
      : noEstimate({ level, unit: 'ratio', method: shrunkenMethod, reason: refusal ?? 'no failure is expected' }),
    crudeFailuresPerMillionMiles: crudeRate(about, own),
    ...(comebacks[place]?.estimates ?? {}),
    ...explainedEstimates(alike, place, level, compared),
  };
  const firmness = compared
    ? verdictOnComparison({ failures: [failures, total - failures], event, pValue, ratio: shownLimits(ratio) }, [])
        .firmness
    : 'too few';
  return {
    ...{ label, by: { [evidence.compared]: label }, lives: own.length, failures, firmness },
    miles: own.reduce((sum, at) => sum + (evidence.miles[at] as number), 0),
    counts: {
      vehicles: new Set(gather(evidence.adjustment.cluster.codes, own)).size,
      lateEntries: own.reduce((sum, at) => sum + ((evidence.entry[at] as number) > 0 ? 1 : 0), 0),
      ...{ comebacks30: comebacks[place]?.within30Days ?? 0, comebacks90: comebacks[place]?.within90Days ?? 0 },
      ...deviationCounts(evidence.deviations, own),
    },
    estimates: { ...estimates, deviationsTold: recordingShare(evidence.deviations, own, level) },
    ...(refusal === null ? {} : { notes: [`Not compared: ${refusal}.`] }),
  };
}

const shrunkenMethod = 'gamma–Poisson posterior, averaged over priors, drawn apart by the design effect';

/** A number counted, not estimated. */
const exactly = (value: number, level: number): Estimate =>
  toEstimate({ value, lower: value, upper: value }, { level, unit: 'failures', method: 'counted' });

/** Failures per million wheel-end miles, whatever the mix of work. */
function crudeRate({ evidence, view: { level } }: GroupsAbout, own: Int32Array): Estimate {
  const { factor, rateUnit, nothingWatched: reason } = ageAxes.miles;
  const about = { level, unit: rateUnit, method: 'exact Poisson, time-terminated', factor, reason };
  const exposure = gather(evidence.miles, own);
  if (!exposure.some((miles) => miles > 0)) return noEstimate(about);
  const cluster = gather(evidence.adjustment.cluster.codes, own);
  const rate = eventRate({ events: gather(evidence.event, own), exposure, cluster }, { level });
  return toEstimate(rate.rate, about, rate.robust?.rate);
}
