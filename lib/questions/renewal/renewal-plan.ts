import type { View } from '../../../shared/view.ts';
import {
  createRandom,
  replacementInterval,
  type LifeFit,
  type MixtureFit,
  type ReplacementInterval,
} from '../../statistics/index.ts';
import { leastAtRisk } from '../curve-rows.ts';
import { firmnessRule } from '../firmness.ts';
import type { FailureCost } from '../fitted/failure-cost.ts';
import { fittedLives, watchedTo, withWiderErrors, type FittedLives } from '../fitted/fitted-lives.ts';
import type { GroupLives } from '../life-estimates.ts';
import type { Wording } from '../words/wording.ts';

/** Extra cost over the least that still counts as flat. */
export const flatWithin = 0.02;
const curvePoints = 60;
/** Above this share of the mean life beyond what was watched, running to failure costs what the shape says. */
export const mostBeyondWatched = 0.2;

/** The renewal of one group: planned, or why not. */
export interface RenewalPlan {
  readonly fits: FittedLives | null;
  /** Null where the lives could not be fitted. */
  readonly plan: ReplacementInterval | null;
  /** Why no renewal is named; null where one is. */
  readonly reason: string | null;
  /** Up to where ten lives were watched. */
  readonly watchedTo: number;
  readonly cost: FailureCost;
}

export interface Planning {
  readonly view: View;
  readonly words: Wording;
  readonly seed: number;
  readonly draws?: number;
}

/** The fit of the lives, and the renewal that costs least under it. */
export function renewalPlan(
  lives: GroupLives,
  cost: FailureCost,
  planning: Planning,
  also: readonly number[],
): RenewalPlan {
  const watched = watchedTo(lives.exit, leastAtRisk);
  const none = (reason: string, fits: FittedLives | null = null): RenewalPlan => {
    return { fits, plan: null, reason, watchedTo: watched, cost };
  };
  const failures = lives.event.reduce((sum, one) => sum + one, 0);
  if (failures < firmnessRule.fairFailures) return none(`fewer than ${firmnessRule.fairFailures} failures`);
  const fits = fittedLives(lives, planning.view, () => true);
  if (typeof fits === 'string') return none(fits);
  return planOf(fits.used, fits, { cost, watched, planning, also });
}

interface Asked {
  readonly cost: FailureCost;
  readonly watched: number;
  readonly planning: Planning;
  /** Further ages at which the cost is wanted. */
  readonly also: readonly number[];
}

/** The renewal under one fit. */
export function planOf(
  fit: LifeFit<'weibull'> | MixtureFit,
  fits: FittedLives,
  { cost, watched, planning, also }: Asked,
): RenewalPlan {
  const { view, words, seed, draws = 600 } = planning;
  const ages = Array.from({ length: curvePoints }, (_, at) => (watched * (at + 1)) / curvePoints);
  const plan = replacementInterval(withWiderErrors(fit), {
    ...{ plannedCost: view.plannedCost, failureCost: cost.mean, level: view.level, flatWithin },
    ...{ ages: [...ages, ...also], random: createRandom(seed), draws },
  });
  const reason = plan.reason ?? reasonBeyond(plan, watched, words);
  return { fits, plan, reason, watchedTo: watched, cost };
}

/** More of the mean life than this beyond what was seen, and running to failure has no cost that the records tell. */
const mostBeyond = 0.5;

function reasonBeyond(plan: ReplacementInterval, watched: number, { miles }: Wording): string | null {
  if (plan.leastCostAge !== null && plan.leastCostAge > watched)
    return `the least cost lies at ${miles(plan.leastCostAge)}, beyond the ${miles(watched)} up to which ${leastAtRisk} lives were watched`;
  return plan.meanBeyondObserved > mostBeyond
    ? 'more than half of the mean life lies beyond the longest life seen, so that running to failure cannot be costed'
    : null;
}
