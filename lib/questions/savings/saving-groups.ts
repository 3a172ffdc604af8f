import { deviations as allDeviations } from '../../../shared/deviations.ts';
import type { Estimate, Group } from '../../../shared/finding.ts';
import { proportion } from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import type { FailureCost } from '../fitted/failure-cost.ts';
import { ratioOfTerm } from '../causes/ratios.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { firmnessOfComparison } from '../firmness.ts';
import { listed, percent } from '../words/share-words.ts';
import { count, counted } from '../words/wording.ts';
import { moneyOf } from './saving-cost.ts';
import { chanceOfNone, savedEstimate } from './saving-estimates.ts';
import type { SavedOf, SavingResult } from './saving-draws.ts';
import type { JointDeviation, SavingLives } from './saving-lives.ts';
import { withoutBest, type SavingPlan, type SavingStep } from './saving-plan.ts';

export const together = 'all of these together';

export interface SavingOf {
  readonly asking: Asking;
  readonly lives: SavingLives;
  readonly plan: SavingPlan;
  readonly result: SavingResult | null;
  /** What a failure costs by the costs entered; null where it cannot be said. */
  readonly cost: FailureCost | null;
}

/** All chosen together first, then each alone, then those of which no ratio can be given. */
export function savingGroups(of: SavingOf): Group[] {
  const { plan, result } = of;
  if (result === null) return (plan.byNumbers ? of.lives.deviations : plan.untold).map((own) => untoldGroup(of, own));
  const alone = plan.steps.map((step, at) => stepGroup(of, step, result.alone[at] as SavedOf));
  return [
    ...(plan.steps.length > 1 ? [togetherGroup(of, result)] : []),
    ...alone,
    ...plan.untold.map((own) => untoldGroup(of, own)),
  ];
}

const missing = (name: string) =>
  name === 'perYear' ? 'these lives tell no days to count a year by' : 'no shop’s lives were watched to the horizon';

function savedEstimates(saved: SavedOf, level: number, cost: FailureCost | null): Record<string, Estimate> {
  const [of1000, year] = (['perThousand', 'perYear'] as const).map((name) =>
    savedEstimate(saved, name, level, missing(name)),
  ) as [Estimate, Estimate];
  return {
    failuresFewerPerThousand: of1000,
    failuresFewerPerYear: year,
    failuresFewerShare: savedEstimate(saved, 'share', level, 'no failure'),
    ...(cost === null ? {} : { moneySavedPerThousand: moneyOf(of1000, cost), moneySavedPerYear: moneyOf(year, cost) }),
  };
}

interface Counted {
  readonly lives: number;
  readonly failures: number;
  readonly miles: number;
  readonly failuresWithout: number;
}

/** Lives that carry any of some deviations. */
export function carrying({ causes }: SavingLives, some: readonly JointDeviation[]): Counted {
  const { event, miles } = causes.lives;
  const sum = { lives: 0, failures: 0, miles: 0, failuresWithout: 0 };
  event.forEach((failed, at) => {
    if (some.some(({ exposure }) => exposure.codes[at] === 1)) {
      sum.lives++;
      sum.failures += failed;
      sum.miles += miles[at] as number;
    } else sum.failuresWithout += failed;
  });
  return sum;
}

function groupOf(
  { asking: { view }, lives, cost }: SavingOf,
  label: string,
  some: readonly JointDeviation[],
  saved: SavedOf,
): Group {
  const { failuresWithout, ...counts } = carrying(lives, some);
  const estimates = savedEstimates(saved, view.level, cost);
  return {
    ...{ label, by: { deviation: label }, ...counts, counts: { failuresWithout }, estimates },
    firmness: firmnessOfComparison({
      ...{ least: Math.min(counts.failures, failuresWithout), pValue: chanceOfNone(saved), ratio: null },
      // What would go with the deviation is assumed, not seen.
      doubted: true,
    }),
  };
}

const togetherGroup = (of: SavingOf, { together: saved }: SavingResult): Group =>
  groupOf(
    of,
    together,
    of.plan.steps.map(({ deviation }) => deviation),
    saved,
  );

function stepGroup(of: SavingOf, step: SavingStep, saved: SavedOf): Group {
  const { view } = of.asking;
  const { deviation, withIt, told, best, to } = step;
  const group = groupOf(of, deviation.code, [deviation], saved);
  const about = {
    level: view.level,
    method:
      'Cox, late entry, every other deviation told and the usual account taken, within shop; vehicles as clusters',
  };
  const share = toEstimate(proportion({ events: withIt, total: told }, { level: view.level }), {
    level: view.level,
    unit: 'share',
    method: 'of jobs whose record tells; Wilson',
  });
  const target = to === 'best-shop' ? (best ? best.withIt / best.told : 0) : to;
  const level = view.level;
  const fallsTo: Estimate =
    to === 'best-shop' && best
      ? toEstimate(proportion({ events: best.withIt, total: best.told }, { level }), {
          level,
          unit: 'share',
          method: 'the lowest of the shops; Wilson',
        })
      : { value: target, lower: target, upper: target, level, unit: 'share', method: 'as chosen' };
  return {
    ...group,
    estimates: {
      prevalence: share,
      fallsTo,
      ...(of.lives.fit
        ? { hazardRatio: ratioOfTerm(of.lives.fit, `${deviation.exposure.column}=yes`, about).estimate }
        : {}),
      ...group.estimates,
    },
    notes: notesOf(step, target, withoutBest(view, step)),
  };
}

function notesOf({ deviation, withIt, told, best, to }: SavingStep, target: number, noBest: boolean): string[] {
  const share = withIt / told;
  return [
    to === 'best-shop' && best
      ? `Falls from ${percent(share)} of ${count(told)} jobs that tell to ${percent(target)}, the share at “${best.label}” (${count(best.withIt)} of ${count(best.told)}), lowest of ${counted(best.of, 'shop')} that tell of 50 jobs or more.`
      : `Falls from ${percent(share)} of ${count(told)} jobs that tell to ${noBest ? 'none at all: no two shops tell of 50 jobs or more' : `${percent(target)}, as chosen`}.`,
    ...(share <= target ? ['It is no more frequent than that already: nothing would be saved.'] : []),
    ...(isCritical(deviation.code) ? ['Changed on mechanism, whatever these numbers say: it can cost a wheel.'] : []),
  ];
}

const isCritical = (code: string): boolean => allDeviations.some((own) => own.code === code && own.safetyCritical);

function untoldGroup(of: SavingOf, deviation: JointDeviation): Group {
  const { failuresWithout, ...counts } = carrying(of.lives, [deviation]);
  const why = deviation.reason ?? 'not taken: the limits of its ratio do not lie above 1';
  const about = { level: of.asking.view.level, method: 'joint model', reason: why };
  return {
    ...{
      label: deviation.code,
      by: { deviation: deviation.code },
      ...counts,
      counts: { failuresWithout },
      firmness: 'too few',
    },
    estimates: {
      hazardRatio: noEstimate({ ...about, unit: 'ratio' }),
      failuresFewerPerThousand: noEstimate({ ...about, unit: 'per 1,000 installations' }),
      failuresFewerPerYear: noEstimate({ ...about, unit: 'failures a year' }),
      failuresFewerShare: noEstimate({ ...about, unit: 'share' }),
    },
    notes: [
      `No saving is worked out: ${why}.`,
      ...(isCritical(deviation.code) ? ['Changed on mechanism, whatever the numbers: it can cost a wheel.'] : []),
    ],
  };
}

/** Safety-critical deviations that some job here carried: changed on mechanism. */
export function criticalHere({ lives }: SavingOf): string | null {
  const names = allDeviations.filter(
    ({ code, safetyCritical }) =>
      safetyCritical && lives.deviations.some((own) => own.code === code && own.exposure.codes.includes(1)),
  );
  return names.length === 0
    ? null
    : `Changed on mechanism, whatever these numbers say, as each can cost a wheel: ${listed(names.map(({ says }) => says))}.`;
}
