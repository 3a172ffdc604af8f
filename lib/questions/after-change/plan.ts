import type { Series } from '../../../shared/finding.ts';
import { daysAMonth } from '../../../shared/units.ts';
import { cumulativeIncidence, detectableRatio, requiredEvents } from '../../statistics/index.ts';
import { ended } from '../life-rows.ts';
import type { ChangeEvidence } from './change-evidence.ts';
import { placesWhere } from '../gather.ts';

/** Ratios a plan is given for. */
const ratios = [0.3, 0.4, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9];
const mostMonths = 240;
const jobsCountedOverDays = 365;

/** What it takes to find a change of some shops, at the rate that their work fails at now. */
export interface Plan {
  readonly jobsPerMonth: number;
  readonly failuresBefore: number;
  readonly at: readonly {
    readonly ratio: number;
    readonly failuresNeeded: number | null;
    readonly monthsNeeded: number | null;
  }[];
}

/**
 * Failures after that find a ratio four times in five, beside those already there before (two-sided,
 * 95 %), and the months until so many are to be expected of jobs done at the present pace.
 * @param day the change, or the day until which is known
 */
export function planOf(evidence: ChangeEvidence, shops: readonly string[], day: number, design: number): Plan | null {
  const { shop, shops: labels, installDay, entryDays, exitDays, cause } = evidence;
  const codes = new Set(shops.map((label) => labels.indexOf(label)));
  const own = placesWhere(shop.length, (at) => codes.has(shop[at] as number) && (installDay[at] as number) < day);
  const days = placesWhere(
    own.length,
    (place) => (exitDays[own[place] as number] as number) > (entryDays[own[place] as number] as number),
  );
  if (days.length === 0 || days.length < own.length) return null;
  const recent = own.filter((at) => (installDay[at] as number) >= day - jobsCountedOverDays).length;
  const jobsPerMonth = (recent * daysAMonth) / jobsCountedOverDays;
  const failuresBefore = own.reduce((sum, at) => sum + (evidence.event[at] as number), 0);
  const failed = failedByMonth(
    Float64Array.from(own, (at) => (entryDays[at] as number) / daysAMonth),
    Float64Array.from(own, (at) => (exitDays[at] as number) / daysAMonth),
    Uint8Array.from(own, (at) => cause[at] as number),
  );
  return {
    ...{ jobsPerMonth, failuresBefore },
    at: ratios.map((ratio) => {
      const failuresNeeded = failuresNeededFor(ratio, failuresBefore, design);
      return {
        ratio,
        failuresNeeded,
        monthsNeeded: failuresNeeded === null ? null : monthsUntil(failuresNeeded, ratio * jobsPerMonth, failed),
      };
    }),
  };
}

/**
 * Share of jobs failed by the middle of each month since, under today's renewals; held after the last
 * known. Jobs of a month are half a month old at its end, on average.
 */
function failedByMonth(entry: Float64Array, exit: Float64Array, cause: Uint8Array): number[] {
  const curve = cumulativeIncidence({ entry, exit, event: cause }).find(({ cause: of }) => of === ended.failed);
  let [at, share] = [0, 0];
  return Array.from({ length: mostMonths }, (_, month) => {
    for (; curve && at < curve.time.length && (curve.time[at] as number) <= month + 0.5; at++)
      share = curve.incidence[at] as number;
    return share;
  });
}

/** 1/after + 1/before has to be as small as the information that the design asks for (Schoenfeld 1983). */
function failuresNeededFor(ratio: number, before: number, design: number): number | null {
  const { value } = requiredEvents({ ratio }, { share: 0.5, inflation: design });
  const rest = 4 / value - 1 / before;
  return before > 0 && rest > 0 ? Math.ceil(1 / rest - 1e-9) : null;
}

function monthsUntil(failures: number, jobsPerMonth: number, failed: readonly number[]): number | null {
  let expected = 0;
  for (let month = 1; month <= mostMonths; month++) {
    expected += jobsPerMonth * (failed[month - 1] as number);
    if (expected >= failures) return month;
  }
  return null;
}

/** The ratio that as many failures as there are would find four times in five; null without failures. */
export function detectable(before: number, after: number, design: number): number | null {
  if (before === 0 || after === 0) return null;
  const total = before + after;
  return detectableRatio({ events: total }, { share: after / total, inflation: design }).below;
}

export const planSeries = (plan: Plan, group: string): Series => ({
  ...{ name: 'plan', group },
  columns: {
    ratio: plan.at.map(({ ratio }) => ratio),
    failuresNeeded: plan.at.map(({ failuresNeeded }) => failuresNeeded),
    monthsNeeded: plan.at.map(({ monthsNeeded }) => monthsNeeded),
    jobsPerMonth: plan.at.map(() => plan.jobsPerMonth),
    failuresBefore: plan.at.map(() => plan.failuresBefore),
  },
});
