import { adjustPValues, type ObservedExpected } from '../../statistics/index.ts';
import { commonGround, groundCells, leastCommonGround } from '../adjustment/common-ground.ts';
import { firmnessRule } from '../firmness.ts';
import { attributeName } from '../words/group-words.ts';
import { listed } from '../words/share-words.ts';
import { isOneGroup } from './compared-groups.ts';
import type { GroupsAbout, ShopGroup } from './shop-group.ts';
import { shopNumbers } from './shop-numbers.ts';
import type { ShopsEvidence } from './shops-evidence.ts';

/** Every group with its numbers: those compared first, worst first by the shrunken ratio. */
export function shopGroups(about: GroupsAbout): ShopGroup[] {
  const { evidence, alike, shrunken } = about;
  const { levels } = evidence.groups;
  const refusals = refusalsOf(evidence);
  const observed = observedBy(evidence);
  const isCompared = levels.map(
    (label, place) =>
      isOneGroup(label) && refusals[place] === null && (observed[place] as number) >= firmnessRule.thinFailures,
  );
  const many = isCompared.filter(Boolean).length > 1;
  const raw = levels.map((_, place) => (many && isCompared[place] && alike ? pValueOf(alike.plain, place) : null));
  const corrected = adjustPValues(raw, { method: 'holm' });
  const score = (place: number) => shrunken?.ratio[place]?.value ?? 0;
  const order = [...levels.keys()].sort(
    (a, b) =>
      Number(isCompared[b]) - Number(isCompared[a]) || (isCompared[a] && isCompared[b] ? score(b) - score(a) : a - b),
  );
  return order.map((place, at) => {
    const compared = many && (isCompared[place] as boolean);
    const own = { place, compared, rawPValue: raw[place] ?? null, pValue: corrected[place] ?? null };
    const group = shopNumbers(about, own, refusals[place] ?? null);
    return { ...own, group: compared ? { ...group, counts: { ...group.counts, orderLikeForLike: at + 1 } } : group };
  });
}

function observedBy({ groups, event }: ShopsEvidence): number[] {
  const observed = groups.levels.map(() => 0);
  groups.codes.forEach((group, at) => (observed[group] = (observed[group] as number) + (event[at] as number)));
  return observed;
}

/** Why a group is not compared with the others though it has failures enough; null where there is ground. */
function refusalsOf({ groups, adjustment, event }: ShopsEvidence): (string | null)[] {
  const cells = groundCells(adjustment);
  return groups.levels.map((label, own) => {
    if (!isOneGroup(label)) return null;
    const side = groups.codes.map((code) => (code === own ? 1 : isOneGroup(groups.levels[code] as string) ? 0 : -1));
    const { least } = commonGround(cells, side, event);
    if (least === null || least.share >= leastCommonGround) return null;
    const where = listed(least.columns.map(attributeName));
    return `no common ground: under half of its lives have lives of others in the same ${where}`;
  });
}

function pValueOf({ pValue, robustPValue }: ObservedExpected, place: number): number | null {
  const [exact, robust] = [pValue[place] ?? null, robustPValue[place] ?? null];
  return exact === null ? null : Math.max(exact, robust ?? 0);
}
