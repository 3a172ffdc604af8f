import type { Estimate } from '../../../shared/finding.ts';
import { daysAMonth } from '../../../shared/units.ts';
import { kaplanMeier, proportion, survivalAt, type SurvivalCurve } from '../../statistics/index.ts';
import { adjustableLives } from '../adjustment/adjustable-lives.ts';
import type { Asking } from '../asking.ts';
import { outcomeOf } from '../causes/outcome.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { gather } from '../gather.ts';
import type { ShopsEvidence } from './shops-evidence.ts';

/** Jobs that came back, by group. */
export interface Comebacks {
  /** Failures within so many days of the job. */
  readonly within30Days: number;
  readonly within90Days: number;
  readonly estimates: { readonly comebackWithin30Days: Estimate; readonly comebackWithin90Days: Estimate };
}

/**
 * The share of jobs whose part failed within 30 and 90 days of being fitted: 1 − product-limit by
 * days, so that jobs not yet watched so long count for as long as they were.
 */
export async function comebacks(asking: Asking, evidence: ShopsEvidence): Promise<Comebacks[]> {
  const { view, signal } = asking;
  const { lives, columns, scope, groups, compared } = evidence;
  const byDays = { ...asking.view, axis: 'months' as const };
  const able = adjustableLives(scope.rows, columns, columns.months);
  const { exit, event } = await outcomeOf(byDays, lives, able, columns, signal);
  const unit = await lives.cut('unit_id', signal);
  const own = new Int32Array(columns.rows).fill(-1);
  evidence.rows.forEach((row, at) => (own[row] = groups.codes[at] as number));
  const places = able.rows.keys();
  const kept = Int32Array.from(places).filter((at) => (own[able.rows[at] as number] as number) >= 0);
  const rows = gather(able.rows, kept);
  const codes = gather(own, rows);
  if (kept.length === 0) return groups.levels.map(() => notTold(view.level));
  const data = { entry: gather(able.entry, kept), exit: gather(exit, kept), event: gather(event, kept) };
  const curves = kaplanMeier(
    {
      ...data,
      group: { levels: groups.levels, codes },
      cluster: { levels: unit.levels, codes: gather(unit.codes, rows) },
    },
    { level: view.level },
  );
  return groups.levels.map((label, group) => {
    const curve = curves.find((one) => one.group === label);
    const jobs = codes.reduce((sum, code, at) => sum + (code === group && data.entry[at] === 0 ? 1 : 0), 0);
    return curve && jobs > 0 ? comebacksOf(curve, jobs, view.level) : notTold(view.level, compared);
  });
}

/** A failure on the thirtieth day is within thirty days, whatever the rounding of months. */
const monthsOf = (days: number): number => (days + 0.5) / daysAMonth;

const about = (level: number) => ({ level, unit: 'share', method: '1 − product-limit by days' });

function notTold(level: number, compared = 'shop'): Comebacks {
  const none = noEstimate({ ...about(level), reason: `no job of this ${compared} was watched from its day on` });
  return { within30Days: 0, within90Days: 0, estimates: { comebackWithin30Days: none, comebackWithin90Days: none } };
}

function comebacksOf(curve: SurvivalCurve, jobs: number, level: number): Comebacks {
  const seen = (days: number) =>
    curve.events.reduce((sum, events, at) => sum + ((curve.time[at] as number) <= monthsOf(days) ? events : 0), 0);
  return {
    ...{ within30Days: seen(30), within90Days: seen(90) },
    estimates: {
      comebackWithin30Days: shareBy(curve, 30, seen(30), jobs, level),
      comebackWithin90Days: shareBy(curve, 90, seen(90), jobs, level),
    },
  };
}

function shareBy(curve: SurvivalCurve, days: number, seen: number, jobs: number, level: number): Estimate {
  const at = survivalAt(curve, monthsOf(days));
  const less = (value: number | null | undefined) => (value == null ? null : 1 - value);
  if (at.survival === null) return noEstimate({ ...about(level), reason: at.reason ?? 'not watched so long' });
  // Without a failure the curve has no error to give limits by.
  if (seen === 0) {
    const { upper } = proportion({ events: 0, total: jobs }, { level, method: 'clopper-pearson' });
    return toEstimate({ value: 0, lower: 0, upper }, { ...about(level), method: 'none of the jobs; exact' });
  }
  const own = { value: 1 - at.survival, lower: less(at.upper), upper: less(at.lower) };
  const robust = { value: null, lower: less(at.robustUpper), upper: less(at.robustLower) };
  return toEstimate(own, about(level), robust);
}
