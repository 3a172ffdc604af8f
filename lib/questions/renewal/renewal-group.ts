import { shownLimits, type Estimate, type Group, type Series } from '../../../shared/finding.ts';
import { proportion, type Interval, type ReplacementInterval } from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { firmnessOfOne } from '../firmness.ts';
import type { ToldCounts } from '../fitted/consequences.ts';
import { gather } from '../gather.ts';
import type { GroupKey } from '../group-keys.ts';
import { lifeCurves } from '../life-curves.ts';
import { failedByHorizon } from '../life-estimates.ts';
import type { RenewalEvidence, RenewalLives } from './renewal-evidence.ts';
import { percent } from '../words/share-words.ts';
import { mostBeyondWatched, type RenewalPlan } from './renewal-plan.ts';

const moneyUnit = 'money per million miles';
const perMillion = 1e6;

export interface RenewalGroup {
  readonly group: Group;
  readonly series: readonly Series[];
  readonly plan: RenewalPlan;
  readonly lives: RenewalLives;
}

/** One group's renewal as estimates and the curve of its cost. */
export function renewalGroup(
  { label, by }: GroupKey,
  own: RenewalLives,
  plan: RenewalPlan,
  evidence: RenewalEvidence,
  asking: Asking,
): RenewalGroup {
  const { places, failures, consequences, intervals } = own;
  const estimates = { ...planEstimates(plan, asking), ...otherEstimates(own, plan, evidence, asking) };
  const exposure = gather(evidence.lives.exposureMiles, places).reduce((sum, miles) => sum + miles, 0);
  const { lining, roadCall } = consequences;
  const group: Group = {
    ...{ label, by: { ...by }, lives: places.length, failures, miles: exposure },
    firmness: firmnessOfOne(failures, shownLimits(estimates['renewalMiles'] as Estimate)),
    counts: {
      vehicles: new Set(own.fitted.cluster).size,
      ...{ leaksSoaked: lining.yes, leaksClean: lining.no, leaksUnknown: lining.unknown },
      ...{ roadCalls: roadCall.yes, foundOtherwise: roadCall.no, foundUnknown: roadCall.unknown },
      ...flatCounts(plan),
      ...(intervals[0] ? { procedureIntervalMiles: intervals[0].miles, procedureLives: intervals[0].lives } : {}),
    },
    estimates,
    ...notesOf(plan),
  };
  return { group, series: costSeries(label, own, plan), plan, lives: own };
}

/** How far running to failure was costed by the shape alone, where that is much. */
function notesOf({ plan }: RenewalPlan): { notes?: string[] } {
  if (!plan || plan.meanBeyondObserved <= mostBeyondWatched) return {};
  return {
    notes: [
      `${percent(plan.meanBeyondObserved)} of the mean life taken for running to failure lies beyond the longest life seen: what is saved rests that far on the fitted shape.`,
    ],
  };
}

/** Between which miles the cost stays near the least, no further than lives were watched. */
export function flatRange({
  plan,
  reason,
  watchedTo,
}: RenewalPlan): { from: number; to: number; open: boolean } | null {
  if (!plan || reason !== null) return null;
  const { from, to } = plan.flat;
  return { from: from ?? 0, to: Math.min(to ?? watchedTo, watchedTo), open: to === null || to > watchedTo };
}

function flatCounts(plan: RenewalPlan): Record<string, number> {
  const flat = flatRange(plan);
  return flat === null ? {} : { flatFromMiles: flat.from, flatToMiles: flat.to };
}

function planEstimates({ plan, reason, fits }: RenewalPlan, { view }: Asking): Record<string, Estimate> {
  const { level } = view;
  const kind = fits?.used.distribution === 'weibull-mixture' ? 'early failures and wear-out' : 'Weibull';
  const about = (unit: string, factor = 1) => ({
    ...{ level, unit, factor },
    method: `age replacement under the fitted life (${kind}); limits by draws, the larger of model and vehicle error`,
  });
  const told = (interval: Interval | undefined, unit: string, factor = 1) =>
    plan && interval
      ? toEstimate(interval, { ...about(unit, factor), reason: reason ?? 'no planned age beats running to failure' })
      : noEstimate({ ...about(unit), reason: reason ?? 'not planned' });
  // A plan that is refused names no miles; how the saving stands shows why.
  const named = reason === null ? plan?.age : undefined;
  // Beyond what was watched a saving is the shape's word alone.
  const shown = reason === null || plan?.reason !== null;
  return {
    renewalMiles: told(named, 'miles'),
    savingPerMillionMiles: told(shown ? plan?.savingRate : undefined, moneyUnit, perMillion),
    savingShare: told(shown ? plan?.saving : undefined, 'share'),
    costAtRenewal: told(named && plan?.costRate, moneyUnit, perMillion),
    costRunToFailure: told(plan?.runToFailure, moneyUnit, perMillion),
  };
}

function otherEstimates(
  own: RenewalLives,
  { fits, plan, reason, watchedTo }: RenewalPlan,
  evidence: RenewalEvidence,
  asking: Asking,
): Record<string, Estimate> {
  const { view, words } = asking;
  const { level } = view;
  const aboutFit = { level, unit: 'share', method: '1 − fitted survival' };
  const at = reason === null && plan ? plan.age.value : null;
  const failed = fits && at !== null ? fits.used.survivalAt(at) : null;
  const turned = (value: number | undefined) => (value === undefined ? null : 1 - value);
  return {
    failedByRenewal: failed
      ? toEstimate(
          { value: turned(failed.value), lower: turned(failed.upper), upper: turned(failed.lower) },
          aboutFit,
          failed.robust && { value: null, lower: turned(failed.robust.upper), upper: turned(failed.robust.lower) },
        )
      : noEstimate({ ...aboutFit, reason: reason ?? 'no renewal is named' }),
    earlyFailuresPerThousand: earlyEstimate(own, evidence, asking),
    costAtProcedureInterval: procedureEstimate(own, plan, watchedTo, evidence, words.miles, level),
    liningShare: shareEstimate(own.consequences.lining, level, 'no failure says whether the lining was soaked'),
    roadCallShare: shareEstimate(own.consequences.roadCall, level, 'no failure says who found it'),
  };
}

/** Failed within the early stretch, of 1,000 installations: what each renewal opens to again. */
function earlyEstimate({ places }: RenewalLives, { lives }: RenewalEvidence, { view, words }: Asking): Estimate {
  const rows = {
    ...{ rows: places.length, group: new Int32Array(places.length), unit: gather(lives.unit, places) },
    ...{ entry: gather(lives.entry, places), exit: gather(lives.exit, places), ended: gather(lives.ended, places) },
  };
  const { curves, starts } = lifeCurves(rows, ['all'], view);
  const [curve, start = null] = [curves[0], starts[0]];
  const about = { level: view.level, unit: 'per 1,000 installations', method: '1 − product-limit' };
  if (!curve || start === null) return noEstimate({ ...about, reason: 'fewer than 10 lives are at risk at any age' });
  if (start > 0)
    return noEstimate({ ...about, reason: `lives are watched from ${words.miles(start)} on, not from installation` });
  const share = failedByHorizon(curve, start, view.earlyMiles, words);
  if (share.value === null) return noEstimate({ ...about, reason: share.reason ?? 'cannot be told' });
  const { vehicleLower, vehicleUpper } = share;
  const vehicle = vehicleLower === undefined ? null : { value: null, lower: vehicleLower, upper: vehicleUpper ?? null };
  return toEstimate(share, { ...about, factor: 1000 }, vehicle);
}

function procedureEstimate(
  { intervals }: RenewalLives,
  plan: ReplacementInterval | null,
  watched: number,
  { procedureKnown }: RenewalEvidence,
  miles: (value: number) => string,
  level: number,
): Estimate {
  const about = { level, unit: moneyUnit, method: 'age replacement at the interval of the procedure' };
  const none = (reason: string) => noEstimate({ ...about, reason });
  const [most] = intervals;
  if (!procedureKnown) return none('no procedure stands behind a table of lives');
  if (!most) return none('the procedure names no interval for these');
  if (most.miles > watched) return none(`its ${miles(most.miles)} lie beyond the ${miles(watched)} watched`);
  const at = plan ? plan.curve.age.indexOf(most.miles) : -1;
  if (!plan || at < 0) return none('the life could not be fitted');
  const { costRate, lower, upper } = plan.curve;
  const interval = { value: costRate[at] as number, lower: lower[at] as number, upper: upper[at] as number };
  return toEstimate(interval, { ...about, factor: perMillion });
}

function shareEstimate({ yes, no }: ToldCounts, level: number, reason: string): Estimate {
  const about = { level, unit: 'share', method: 'Wilson score' };
  return yes + no === 0
    ? noEstimate({ ...about, reason })
    : toEstimate(proportion({ events: yes, total: yes + no }, { level }), about);
}

/** The cost by miles of planned renewal, as far as lives were watched, and what marks the curve. */
function costSeries(
  group: string,
  { intervals }: RenewalLives,
  { plan, reason, watchedTo, cost }: RenewalPlan,
): Series[] {
  if (!plan) return [];
  const { curve } = plan;
  const kept = [...curve.age.keys()].filter((at) => (curve.age[at] as number) <= watchedTo);
  kept.sort((a, b) => (curve.age[a] as number) - (curve.age[b] as number));
  const take = (column: Float64Array, factor = 1) =>
    kept.map((at) => (Number.isFinite(column[at]) ? (column[at] as number) * factor : null));
  const limits = (interval: Interval, factor: number) =>
    [interval.value, interval.lower, interval.upper].map((value) => (value === null ? null : value * factor));
  const flat = flatRange({ plan, reason, watchedTo, cost, fits: null });
  return [
    {
      ...{ name: 'cost', group },
      columns: {
        miles: take(curve.age),
        cost: take(curve.costRate, perMillion),
        lower: take(curve.lower, perMillion),
        upper: take(curve.upper, perMillion),
        saving: take(curve.saving),
        savingLower: take(curve.savingLower),
        savingUpper: take(curve.savingUpper),
      },
    },
    {
      ...{ name: 'run to failure', group },
      columns: { cost: limits(plan.runToFailure, perMillion) },
    },
    ...(flat && plan.age.value !== null
      ? [
          {
            ...{ name: 'renewal', group },
            columns: { miles: limits(plan.age, 1), flat: [flat.from, flat.to], failureCost: [cost.mean] },
          },
        ]
      : []),
    ...(intervals[0] ? [{ name: 'procedure', group, columns: { miles: [intervals[0].miles] } }] : []),
  ];
}
