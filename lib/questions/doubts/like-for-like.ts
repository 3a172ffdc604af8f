import type { Doubt } from '../../../shared/finding.ts';
import type { Pair } from '../comparison.ts';
import type { Mix } from '../mix.ts';
import { attributeName } from '../words/group-words.ts';
import { listed, percent } from '../words/share-words.ts';
import { doubt } from './doubt.ts';

/** Groups are alike in an attribute if at most this share of miles would have to change value. */
const mostUnlike = 0.1;

interface Unlike {
  readonly attribute: string;
  /** Half the summed difference of the two mile shares: 0 alike, 1 nothing in common. */
  readonly distance: number;
  readonly value: string;
  readonly shares: readonly [number, number];
}

function unlike(attribute: string, values: ReadonlyMap<string, Float64Array>, { compared, reference }: Pair): Unlike {
  const total = (group: number) => [...values.values()].reduce((sum, miles) => sum + (miles[group] as number), 0);
  const [all, other] = [total(compared) || 1, total(reference) || 1];
  const gaps = [...values].map(([value, miles]) => {
    const shares = [(miles[compared] as number) / all, (miles[reference] as number) / other] as const;
    return { value, shares, gap: shares[0] - shares[1] };
  });
  const distance = gaps.reduce((sum, { gap }) => sum + Math.abs(gap), 0) / 2;
  const widest = gaps.reduce((most, one) => (Math.abs(one.gap) > Math.abs(most.gap) ? one : most));
  return { attribute, distance, value: widest.value, shares: widest.shares };
}

const valueName = ({ attribute, value }: Unlike): string =>
  value === 'unknown' ? `${attributeName(attribute)} not known` : value;

/**
 * Whether the two groups compared are alike in what else is known of them. Fails where their miles
 * lie in different roles, lubricants, builds, shops or duties: the ratio is then not like for like.
 */
export function likeForLike(pair: Pair | null, mix: Mix, labels: readonly string[]): Doubt | null {
  if (!pair || mix.size === 0) return null;
  const all = [...mix]
    .map(([attribute, values]) => unlike(attribute, values, pair))
    .sort((a, b) => b.distance - a.distance);
  const different = all.filter(({ distance }) => distance > mostUnlike);
  const settledBy = 'an adjusted comparison, or this one within a single role, lubricant, build and shop';
  const names = listed(all.map(({ attribute }) => attributeName(attribute)).sort());
  const most = different[0];
  if (!most)
    return doubt(
      'Like for like',
      'holds',
      `The groups are alike in ${names}; other differences are not known.`,
      settledBy,
    );
  const [one, two] = [labels[pair.compared], labels[pair.reference]];
  const example = `${valueName(most)} makes ${percent(most.shares[0])} of the miles of “${one}” and ${percent(most.shares[1])} of “${two}”`;
  const differ = listed(different.map(({ attribute }) => attributeName(attribute)));
  return doubt(
    'Like for like',
    'fails',
    `Not yet like for like: the groups differ in ${differ}; ${example}.`,
    settledBy,
  );
}
