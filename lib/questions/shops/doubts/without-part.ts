import type { Doubt } from '../../../../shared/finding.ts';
import type { ObservedExpected } from '../../../statistics/index.ts';
import { doubt, failsIf } from '../../doubts/doubt.ts';
import { attributeName } from '../../words/group-words.ts';
import { ratioText } from '../../words/wording.ts';
import type { ShopsEvidence } from '../shops-evidence.ts';

interface Sum {
  observed: number;
  expected: number;
}

const settledBy = 'the same found elsewhere, in lives not yet looked at';

/** Whether leaving a part out takes half of the difference away, or turns it. */
const carries = (ratio: number, without: number): boolean => !(Math.log(without) / Math.log(ratio) > 0.5);

/** Observed and expected of one group by another code of its lives. */
function sumsBy(
  { groups, event }: ShopsEvidence,
  { rowExpected }: ObservedExpected,
  place: number,
  codes: Int32Array,
): Map<number, Sum> {
  const sums = new Map<number, Sum>();
  groups.codes.forEach((group, at) => {
    if (group !== place) return;
    const sum = sums.get(codes[at] as number) ?? { observed: 0, expected: 0 };
    sum.observed += event[at] as number;
    sum.expected += rowExpected[at] as number;
    sums.set(codes[at] as number, sum);
  });
  return sums;
}

interface Moved {
  readonly code: number;
  readonly ratio: number;
  readonly without: number;
  readonly by: number;
}

/** The part of a group whose going changes its ratio most; none that is nearly all of the group. */
function farthest(sums: ReadonlyMap<number, Sum>): Moved | null {
  const total = { observed: 0, expected: 0 };
  for (const { observed, expected } of sums.values()) {
    total.observed += observed;
    total.expected += expected;
  }
  const ratio = total.observed / total.expected;
  const moved = [...sums].flatMap(([code, { observed, expected }]) => {
    const without = (total.observed - observed) / (total.expected - expected);
    if (!(total.expected - expected > 0.05 * total.expected && without > 0)) return [];
    return [{ code, ratio, without, by: Math.abs(Math.log(without / ratio)) }];
  });
  return moved.sort((a, b) => b.by - a.by)[0] ?? null;
}

/** One vehicle with many failures can make a shop look different. */
export function oneVehicle(
  evidence: ShopsEvidence,
  compared: ObservedExpected,
  place: number,
  label: string,
): Doubt | null {
  const { cluster } = evidence.adjustment;
  const most = farthest(sumsBy(evidence, compared, place, cluster.codes));
  if (!most) return null;
  const fails = carries(most.ratio, most.without);
  const says = `Without vehicle ${cluster.levels[most.code]} “${label}” has ${ratioText(most.without)} times the expected instead of ${ratioText(most.ratio)}`;
  const so = fails ? ': one vehicle carries it' : ', and no other vehicle moves it more';
  return doubt('One vehicle', failsIf(fails), `${says}${so}.`, settledBy);
}

/** A difference that lies in one part of the fleet alone is that part's, not the shop's everywhere. */
export function onePart(
  evidence: ShopsEvidence,
  compared: ObservedExpected,
  place: number,
  label: string,
): Doubt | null {
  const parts = Object.entries(evidence.adjustment.covariates).flatMap(([column, { levels, codes }]) => {
    const most = farthest(sumsBy(evidence, compared, place, codes));
    return most ? [{ ...most, column, value: levels[most.code] as string }] : [];
  });
  const worst = parts.sort((a, b) => b.by - a.by)[0];
  if (!worst) return null;
  const fails = carries(worst.ratio, worst.without);
  const lead = fails
    ? `The difference of “${label}” lies mostly in one part of its work`
    : `The difference of “${label}” is not that of one part of its work`;
  const says = `Outside ${attributeName(worst.column)} “${worst.value}” it has ${ratioText(worst.without)} times the expected instead of ${ratioText(worst.ratio)}`;
  return doubt('One part of the work', failsIf(fails), `${lead}. ${says}.`, settledBy);
}
