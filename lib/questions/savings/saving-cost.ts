import type { Estimate } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { noEstimate } from '../estimate.ts';
import { askedLives } from '../columns/asked-lives.ts';
import { consequencesOf, lifeConsequences } from '../fitted/consequences.ts';
import { failureCost, type FailureCost } from '../fitted/failure-cost.ts';
import type { SavingLives } from './saving-lives.ts';

/** What a failure costs by the costs entered; null where other failures are counted than those entered for. */
export async function costOfFailure(asking: Asking, { causes }: SavingLives): Promise<FailureCost | null> {
  if (causes.asked.kind !== 'component') return null;
  const { rows } = await askedLives(asking.source, causes.asked.component).columns(asking.signal);
  const failed = causes.rows.filter((_, at) => causes.lives.event[at] === 1);
  const told = consequencesOf(await lifeConsequences(asking, rows), failed);
  return failureCost(asking.view, told, told);
}

/** Failures fewer as money: each at the mean cost of one, taken as known. */
export function moneyOf(fewer: Estimate, { mean }: FailureCost): Estimate {
  const { value, lower, upper, level } = fewer;
  const about = {
    level,
    unit: 'money',
    method: 'failures fewer times the cost of one, as entered; the cost taken as known',
  };
  if (value === null) return noEstimate({ ...about, reason: fewer.reason ?? 'no saving to be priced' });
  const times = (one: number | null) => (one === null ? null : one * mean);
  return { ...about, value: value * mean, lower: times(lower), upper: times(upper) };
}
