import type { LifeModel } from './life-model.ts';
import { findRoot } from './numeric/find-root.ts';

export interface CheapestAge {
  /** Age of least cost, Infinity when running to failure costs least. */
  readonly age: number;
  /** Ages around it between which the cost stays near the least. */
  readonly flatFrom: number;
  readonly flatTo: number;
}

/** Points of the first look along log age: a mixture's cost can dip twice, so the whole range is looked at. */
const LOOKS = 160;

/**
 * Least cost over all ages: a look along a fine grid of log age, then golden-section search around
 * its lowest point. A gain over running to failure of less than one part in 10⁹ is none.
 */
export function cheapestAge(
  cost: (age: number) => number,
  model: LifeModel,
  working: ArrayLike<number>,
  flatWithin: number | null,
): CheapestAge {
  const [from, to] = ageRange(model, working);
  const at = (k: number) => Math.exp(from + ((to - from) * k) / LOOKS);
  let lowest = 0;
  const costs = Float64Array.from({ length: LOOKS + 1 }, (_, k) => cost(at(k)));
  costs.forEach((value, k) => {
    if (value < (costs[lowest] as number)) lowest = k;
  });
  const [left, right] = [Math.max(0, lowest - 1), Math.min(LOOKS, lowest + 1)];
  const age = goldenSection(cost, at(left), at(right));
  const forever = cost(Infinity);
  const paying = cost(age) < forever * (1 - 1e-9);
  if (flatWithin === null || !paying) return { age: paying ? age : Infinity, flatFrom: NaN, flatTo: NaN };
  const over = (x: number) => cost(x) - cost(age) * (1 + flatWithin);
  let [before, after] = [lowest - 1, lowest + 1];
  while (before >= 0 && over(at(before)) < 0) before--;
  while (after <= LOOKS && over(at(after)) < 0) after++;
  return {
    age,
    flatFrom: before < 0 ? 0 : findRoot(over, at(before), age),
    flatTo: after > LOOKS ? (over(Infinity) < 0 ? Infinity : at(LOOKS)) : findRoot(over, age, at(after)),
  };
}

/** Log ages by which one in 10⁷ has and all but one in 10⁹ have failed. */
function ageRange(model: LifeModel, working: ArrayLike<number>): [number, number] {
  const excess = (logAge: number, target: number) => model.logSurvival(Math.exp(logAge), working) - target;
  const reach = (target: number) => {
    let [low, high] = [-1, 1];
    while (excess(low, target) < 0) low *= 2;
    while (excess(high, target) > 0) high *= 2;
    for (let halving = 0; halving < 40; halving++) {
      const middle = (low + high) / 2;
      if (excess(middle, target) > 0) low = middle;
      else high = middle;
    }
    return low;
  };
  return [reach(Math.log1p(-1e-7)), reach(Math.log(1e-9))];
}

/** Age of least cost between two ages (Press et al., Numerical Recipes §10.2). */
function goldenSection(cost: (age: number) => number, from: number, to: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [left, right] = [from, to];
  let [a, b] = [right - ratio * (right - left), left + ratio * (right - left)];
  let [atA, atB] = [cost(a), cost(b)];
  // The cost is flat at its least: beyond half the digits of the age nothing is left to tell.
  while (right - left > 1e-9 * right) {
    if (atA < atB) {
      [right, b, atB] = [b, a, atA];
      a = right - ratio * (right - left);
      atA = cost(a);
    } else {
      [left, a, atA] = [a, b, atB];
      b = left + ratio * (right - left);
      atB = cost(b);
    }
  }
  return (left + right) / 2;
}
