import { shownLimits, type Estimate, type JudgedChange } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { largerPValue } from '../comparison.ts';
import { badSpell, type BadSpell } from './bad-spell.ts';
import { dayNumber, dayText, type ChangeEvidence } from './change-evidence.ts';
import { cellOf, changeSides, withoutLast, type ChangeSides } from './change-sides.ts';
import { contrast, type Contrast } from './contrast.ts';
import { guards, type Guard } from './guards.ts';
import { placebos, type Placebo } from './placebos.ts';
import { detectable, planOf, type Plan } from './plan.ts';
import { prevalences, type Prevalences } from './prevalences.ts';
import { runningSum, usualRatio, type RunningSum } from './running-sum.ts';

/** Everything that is known of a change once it has been asked for. */
export interface JudgedLives {
  readonly asking: Asking;
  readonly evidence: ChangeEvidence;
  readonly change: JudgedChange;
  readonly day: number;
  readonly sides: ChangeSides;
  /** Other shops that changed by a record of their own, and so are no comparison. */
  readonly alsoChanged: readonly string[];
  /** With what was fitted in a bad spell allowed for: limits reach over both readings. */
  readonly contrast: Contrast;
  /** The same with every life as it is. */
  readonly asSeen: Contrast;
  readonly spell: BadSpell | null;
  /** Without the lives of the spell; null where none stands out. */
  readonly withoutSpell: Contrast | null;
  readonly placebos: readonly Placebo[];
  readonly followed: { readonly changed: Prevalences; readonly others: Prevalences };
  readonly guards: readonly Guard[];
  readonly sum: RunningSum | null;
  readonly plan: Plan | null;
  readonly detectable: number | null;
}

export async function judgedLives(
  asking: Asking,
  evidence: ChangeEvidence,
  change: JudgedChange,
): Promise<JudgedLives> {
  const { view } = asking;
  const day = dayNumber(change.date);
  const alsoChanged = alsoChangedShops(asking, change);
  const sides = changeSides(evidence, day, change.shops, alsoChanged);
  const asked = { ...sides, level: view.level };
  const whole = contrast(evidence, asked);
  const { design } = whole;
  const spell = badSpell(evidence, sides, day, design);
  const standsOut = spell !== null && spell.standing !== 'not above';
  const withoutSpell = standsOut
    ? contrast(evidence, { ...asked, after: withoutLast(sides.after, evidence.installDay, spell.from) })
    : null;
  const { record } = change;
  const followed = (own: number) =>
    prevalences(
      { deviations: evidence.deviations, vehicles: evidence.adjustment.cluster },
      [cellOf(sides, own, 0), cellOf(sides, own, 1)],
      record?.deviations ?? [],
      view.level,
    );
  const [before, after] = whole.changed;
  return {
    ...{ asking, evidence, change, day, sides, alsoChanged, spell, withoutSpell },
    asSeen: whole,
    contrast: withoutSpell && spell ? overBoth(whole, withoutSpell, spell, day) : whole,
    placebos: await placebos(asking, evidence, sides, day),
    followed: { changed: followed(1), others: followed(0) },
    guards: await guards(asking, evidence, sides, day),
    sum:
      whole.ages === null
        ? null
        : runningSum(evidence, sides, {
            ...{ day, ages: whole.ages, design, ratio: record?.expectedRatio ?? usualRatio },
            plannedMonths: record?.monthsNeeded ?? null,
          }),
    plan: planOf(evidence, change.shops, day, design),
    detectable: detectable(before.failures, after.failures, design),
  };
}

function alsoChangedShops({ source, changes = [] }: Asking, { shops }: JudgedChange): string[] {
  const others = [...changes, ...source.changes].flatMap((record) => record.shops);
  return [...new Set(others)].filter((shop) => !shops.includes(shop)).sort();
}

/** A ratio whose limits reach over the same without the lives of the spell: neither reading may make it look surer. */
function overBoth(whole: Contrast, without: Contrast, spell: BadSpell, day: number): Contrast {
  const more = `; limits reach over the same without what was fitted from ${dayText(spell.from)} to ${dayText(day - 1)}, a spell of many failures`;
  const wider = (one: Contrast['afterBefore'], other: Contrast['afterBefore']): Contrast['afterBefore'] => {
    if (one.estimate.value === null) return one;
    const [own, limits] = [shownLimits(one.estimate), shownLimits(other.estimate)];
    const { vehicleLower: _lower, vehicleUpper: _upper, ...rest } = one.estimate;
    const estimate: Estimate = {
      ...rest,
      lower: own.lower === null || limits.lower === null ? null : Math.min(own.lower, limits.lower),
      upper: own.upper === null || limits.upper === null ? null : Math.max(own.upper, limits.upper),
      method: one.estimate.method + more,
    };
    const pValue = other.pValue === null || one.pValue === null ? null : largerPValue(one.pValue, other.pValue);
    return { ...one, estimate, pValue: turned(one, other) ? 1 : pValue };
  };
  return {
    ...whole,
    afterBefore: wider(whole.afterBefore, without.afterBefore),
    againstOthers: wider(whole.againstOthers, without.againstOthers),
  };
}

/** Whether the two readings lie on either side of no difference. */
const turned = ({ estimate: one }: Contrast['afterBefore'], { estimate: other }: Contrast['afterBefore']): boolean =>
  one.value !== null && other.value !== null && Math.log(one.value) * Math.log(other.value) < 0;
