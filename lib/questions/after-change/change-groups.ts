import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import type { Ratio } from '../causes/ratios.ts';
import { firmnessOfComparison } from '../firmness.ts';
import { gather, placesWhere } from '../gather.ts';
import type { Contrast } from './contrast.ts';
import type { JudgedLives } from './judged.ts';
import type { Prevalences } from './prevalences.ts';

export const whereChanged = 'where changed';
export const otherShops = 'other shops';

/** Where the change was made, the other shops, and the same contrasts where nothing was changed. */
export function changeGroups(of: JudgedLives): Group[] {
  const { contrast, withoutSpell, followed, placebos } = of;
  const [changed, others] = [1, 0].map((own) => {
    const places = placesWhere(
      of.sides.side.length,
      (at) => of.sides.side[at] === own && (of.sides.after[at] as number) >= 0,
    );
    return gather(of.evidence.miles, places).reduce((sum, one) => sum + one, 0);
  }) as [number, number];
  return [
    {
      ...base(
        whereChanged,
        contrast.changed,
        changed,
        contrast.againstOthers.estimate.value === null ? contrast.afterBefore : contrast.againstOthers,
      ),
      estimates: {
        hazardRatioAfterBefore: contrast.afterBefore.estimate,
        hazardRatioAgainstComparison: contrast.againstOthers.estimate,
        ...(withoutSpell ? { hazardRatioWithoutSpell: againstOr(withoutSpell) } : {}),
        ...sharesOf(followed.changed),
      },
    },
    {
      ...base(otherShops, contrast.others, others, contrast.afterBeforeOthers),
      estimates: { hazardRatioAfterBefore: contrast.afterBeforeOthers.estimate, ...sharesOf(followed.others) },
    },
    ...placebos.map(({ kind, label, contrast: own }): Group => ({
      ...base(kind === 'shop' ? `as if at ${label}` : `as if on ${label}`, own.changed, 0, own.againstOthers),
      estimates: {
        hazardRatioAfterBefore: own.afterBefore.estimate,
        hazardRatioAgainstComparison: own.againstOthers.estimate,
      },
    })),
  ];
}

const againstOr = ({ againstOthers, afterBefore }: Contrast): Estimate =>
  againstOthers.estimate.value === null ? afterBefore.estimate : againstOthers.estimate;

const sharesOf = ({ estimates }: Prevalences): Record<string, Estimate> => ({ ...estimates });

function base(
  label: string,
  [before, after]: Contrast['changed'],
  miles: number,
  { estimate, pValue }: Ratio,
): Omit<Group, 'estimates'> {
  return {
    ...{
      label,
      by: { shops: label },
      lives: before.lives + after.lives,
      failures: before.failures + after.failures,
      miles,
    },
    firmness: firmnessOfComparison({
      ...{ least: Math.min(before.failures, after.failures), pValue, ratio: shownLimits(estimate) },
      // One side alone is never more than fair: what carries it is weighed in the answer.
      doubted: true,
    }),
    counts: {
      ...{ livesBefore: before.lives, failuresBefore: before.failures },
      ...{ livesAfter: after.lives, failuresAfter: after.failures },
    },
  };
}
