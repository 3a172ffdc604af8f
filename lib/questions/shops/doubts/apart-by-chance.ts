import type { Doubt } from '../../../../shared/finding.ts';
import { doubt, failsIf } from '../../doubts/doubt.ts';
import { firmnessRule, pWords } from '../../firmness.ts';
import { listed } from '../../words/share-words.ts';
import { count, counted, ratioText } from '../../words/wording.ts';
import { spreadOf } from '../funnel.ts';
import type { LikeForLike } from '../like-for-like.ts';
import type { ShopGroup } from '../shop-group.ts';
import type { Shrunken } from '../shrunken.ts';

/** Shops whose work nobody else does cannot be told from their work. */
export function commonGroundDoubt(groups: readonly ShopGroup[]): Doubt | null {
  if (groups.length < 2) return null;
  const settledBy = 'like work done elsewhere too';
  const refused = groups.filter(({ group }) => group.notes !== undefined);
  if (refused.length === 0)
    return doubt(
      'Common ground',
      'holds',
      'Each has at least half of its lives where others have lives too, in every attribute taken into account.',
      settledBy,
    );
  const names = refused.map(({ group }) => `“${group.label}”`);
  const say = names.length > 6 ? counted(names.length, 'group') : listed(names);
  return doubt(
    'Common ground',
    'fails',
    `Not compared, as nobody else does like work: ${say}. ${refused[0]?.group.notes?.[0] ?? ''}`,
    settledBy,
  );
}

/** Of many, one lies farthest out by chance alone. */
export function manyCompared(compared: readonly ShopGroup[]): Doubt | null {
  const first = [...compared].sort((a, b) => (a.rawPValue ?? 1) - (b.rawPValue ?? 1))[0];
  if (!first || first.rawPValue === null || first.pValue === null || compared.length < 2) return null;
  const lost = first.rawPValue < firmnessRule.firmPValue && first.pValue >= firmnessRule.firmPValue;
  const detail = `${count(compared.length)} were compared, and one of them lies farthest out by chance alone: “${first.group.label}” has ${pWords(first.rawPValue)} alone, ${pWords(first.pValue)} once that is allowed for (Holm).`;
  return doubt('Many compared', failsIf(lost), detail, 'asking of that one alone, in records not yet looked at');
}

/** About the 95th percentile of a mean square of so many (chi-square over its degrees of freedom, by its mean and error). */
const mostByChance = (groups: number): number => 1 + 2 * Math.sqrt(2 / (groups - 1));

/** Whether all of them together lie farther apart than chance has them lie. */
export function spreadDoubt(
  alike: LikeForLike | null,
  shrunken: Shrunken | null,
  compared: readonly ShopGroup[],
): Doubt | null {
  if (!alike || !shrunken) return null;
  const places = compared.map(({ place }) => place);
  const value = spreadOf(alike.plain, places);
  if (value === null) return null;
  const lead =
    value > mostByChance(places.length)
      ? 'They lie farther apart than chance has them lie'
      : 'They lie about as far apart as chance has them lie';
  const design =
    shrunken.design > 1.05
      ? ` Vehicles and the error of the expected make a ratio vary ${ratioText(shrunken.design)} times as much as chance alone; the limits allow for that.`
      : '';
  const detail = `${lead}: the mean square of their differences, in standard errors, is ${ratioText(value)}, and about 1 by chance.${design}`;
  return doubt('Apart by chance', 'holds', detail, 'more failures in each');
}
