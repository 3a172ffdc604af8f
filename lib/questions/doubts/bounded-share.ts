import { shownLimits, type Doubt, type Estimate } from '../../../shared/finding.ts';
import type { Pair } from '../comparison.ts';
import type { DoubtName } from '../../../shared/methods/doubts/index.ts';
import { percent } from '../words/share-words.ts';
import { ratioText, type Wording } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** The share failed by the horizon of each group shown, and what else is needed to bound it. */
export interface BoundedGroups {
  readonly labels: readonly string[];
  readonly shares: readonly Estimate[];
  /** The pair the answer compares; null where it is of one group. */
  readonly pair: Pair | null;
  readonly horizon: number;
  readonly words: Wording;
}

export interface Bound {
  readonly name: DoubtName;
  /** What is in doubt: `12 seals came off for no stated reason`. */
  readonly about: string;
  /** The assumption that bounds the answer: `had all of them failed`. */
  readonly assumption: string;
  readonly settledBy: string;
  /** Share failed by the horizon under the assumption, by group; null where the lives do not go so far. */
  readonly shares: readonly (number | null)[];
}

/** A share may move this much, a ratio that much, before the doubt stands. */
const mostMoved = { share: 1.1, ratio: 1.25 };

/**
 * A doubt with a bound: the answer under the worst assumption. Of one group it fails where the share
 * leaves the limits shown and moves by more than a tenth; of a comparison, where the ratio of the two
 * shares moves by more than a quarter. Short of the horizon it cannot be told.
 */
export function boundedShare(groups: BoundedGroups, bound: Bound): Doubt {
  return (
    (groups.pair ? boundedRatio(groups, groups.pair, bound) : boundedGroup(groups, bound)) ?? notTold(groups, bound)
  );
}

const notTold = ({ words, horizon }: BoundedGroups, { name, about, settledBy }: Bound): Doubt =>
  doubt(name, 'cannot-tell', `${about}; what they would change by ${words.age(horizon)} cannot be told.`, settledBy);

function boundedGroup({ labels, shares, horizon, words }: BoundedGroups, bound: Bound): Doubt | null {
  const moved = shares.flatMap((share, group) => {
    const failed = bound.shares[group] ?? null;
    if (share.value === null || failed === null) return [];
    const { lower, upper } = shownLimits(share);
    const outside = failed > (upper ?? 1) || failed < (lower ?? 0);
    return [
      {
        label: labels[group] as string,
        value: share.value,
        failed,
        outside,
        by: failed === share.value ? 0 : Math.abs(Math.log(failed / share.value)),
      },
    ];
  });
  const worst = moved.sort((a, b) => b.by - a.by)[0];
  if (!worst) return null;
  const whose = labels.length > 1 ? ` of “${worst.label}”` : '';
  const [bounded, told] = [percent(worst.failed), percent(worst.value)];
  const says = bounded === told ? `the same ${told}${whose}` : `${bounded}${whose} instead of ${told}`;
  const detail = `${bound.about}; ${bound.assumption}, ${says} would have failed by ${words.age(horizon)}.`;
  return doubt(bound.name, failsIf(worst.outside && worst.by > Math.log(mostMoved.share)), detail, bound.settledBy);
}

function boundedRatio({ shares, horizon, words }: BoundedGroups, pair: Pair, bound: Bound): Doubt | null {
  const sides = [pair.compared, pair.reference];
  const [one, other] = sides.map((group) => shares[group]?.value ?? null);
  const [oneIf, otherIf] = sides.map((group) => bound.shares[group] ?? null);
  if (!one || !other || !oneIf || !otherIf) return null;
  const [ratio, ratioIf] = [one / other, oneIf / otherIf];
  const fails = Math.abs(Math.log(ratioIf / ratio)) > Math.log(mostMoved.ratio);
  const detail = `${bound.about}; ${bound.assumption}, the shares failed by ${words.age(horizon)} would stand ${ratioText(ratioIf)} to 1 instead of ${ratioText(ratio)} to 1.`;
  return doubt(bound.name, failsIf(fails), detail, bound.settledBy);
}
