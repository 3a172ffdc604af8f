import type { FailureCost } from '../fitted/failure-cost.ts';
import { listed, percent } from './share-words.ts';
import { count, significant } from './wording.ts';

export const moneySays = (one: number): string => significant(one, 3);

/** `423 a leak, with a soaked lining in 38 % (403 of 1,060 told) and a road call in 1.5 % (18 of 1,182 told)`. */
export function failureCostSays(cost: FailureCost, failure: string): string {
  const share = (name: 'lining' | 'roadCall', what: string): string => {
    const [own, { yes, no }] = [cost[name], cost.told[name]];
    return own === null
      ? `${what} not counted, as too few say`
      : `${what} in ${percent(own)} (${count(yes)} of ${count(yes + no)} told)`;
  };
  if (cost.lining === null && cost.roadCall === null)
    return `${moneySays(cost.mean)} a ${failure}, soaked linings and road calls not counted, as too few failures tell of them`;
  const parts = listed([share('lining', 'a soaked lining'), share('roadCall', 'a road call')]);
  return `${moneySays(cost.mean)} a ${failure}, with ${parts}`;
}
