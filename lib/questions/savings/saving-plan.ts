import type { View } from '../../../shared/view.ts';
import { firmnessRule } from '../firmness.ts';
import type { JointDeviation, SavingLives } from './saving-lives.ts';

/** The best of one shop is that shop, and nothing would be saved. */
const leastShops = 2;
/** A shop has to tell of so many jobs for its share to count as one that can be reached. */
const leastTold = 50;

/** A deviation that would get rarer, and how rare. */
export interface SavingStep {
  readonly deviation: JointDeviation;
  /** Jobs with it, of those whose record tells. */
  readonly withIt: number;
  readonly told: number;
  /** The shop whose share is lowest, by its place among the shops; null where no two tell of jobs enough. */
  readonly best: {
    readonly shop: number;
    readonly label: string;
    readonly withIt: number;
    readonly told: number;
    readonly of: number;
  } | null;
  /** What it falls to: a share, or the best shop's. */
  readonly to: number | 'best-shop';
}

export interface SavingPlan {
  readonly steps: readonly SavingStep[];
  /** Chosen by their numbers, none having been named. */
  readonly byNumbers: boolean;
  /** The best shop was asked for, but no two tell of jobs enough: taken down to none at all. */
  readonly noBest: boolean;
  /** Named, but of no ratio to be given. */
  readonly untold: readonly JointDeviation[];
}

/** The deviations a view asks about and what each falls to; by default those whose ratio in the joint model lies above 1. */
export function savingPlan(view: View, lives: SavingLives): SavingPlan {
  const byNumbers = view.saving.length === 0;
  const named = lives.deviations.filter(({ code }) => view.saving.includes(code));
  const chosen = byNumbers ? lives.deviations.filter((own) => own.term >= 0 && surelyMore(own, lives)) : named;
  const steps = chosen.filter(({ term }) => term >= 0).map((deviation) => stepOf(view, lives, deviation));
  return {
    ...{ byNumbers, steps },
    noBest: steps.some((step) => withoutBest(view, step)),
    untold: named.filter(({ term }) => term < 0),
  };
}

/** To be brought to the best shop's share, where there is no best shop. */
export const withoutBest = (view: View, { deviation, best }: SavingStep): boolean =>
  view.savingTo === 'best-shop' && best === null && view.savingLevels[deviation.code] === undefined;

function surelyMore({ term, compared }: JointDeviation, { fit }: SavingLives): boolean {
  if (!fit) return false;
  const lower = Math.min(fit.lower[term] as number, fit.robustLower?.[term] ?? Infinity);
  return lower > 1 && (compared.counts.failures[1] as number) >= firmnessRule.thinFailures;
}

function stepOf(view: View, { causes }: SavingLives, deviation: JointDeviation): SavingStep {
  const { codes } = deviation.exposure;
  const { strata, strataOf } = causes.lives;
  const counts = strata.levels.map(() => ({ withIt: 0, told: 0 }));
  codes.forEach((code, at) => {
    const own = counts[strata.codes[at] as number];
    if (!own || (code !== 0 && code !== 1)) return;
    own.told++;
    own.withIt += code;
  });
  const able = counts
    .map((own, shop) => ({ ...own, shop, label: strata.levels[shop] ?? '' }))
    .filter(({ told, label }) => told >= leastTold && label !== 'unknown');
  const best =
    strataOf.join() === 'shop' && able.length >= leastShops
      ? [...able].sort((a, b) => a.withIt / a.told - b.withIt / b.told)[0]
      : undefined;
  const own = view.savingLevels[deviation.code];
  return {
    deviation,
    withIt: counts.reduce((sum, { withIt }) => sum + withIt, 0),
    told: counts.reduce((sum, { told }) => sum + told, 0),
    best: best ? { ...best, of: able.length } : null,
    to: own ?? (view.savingTo === 'zero' || best === undefined ? 0 : 'best-shop'),
  };
}
