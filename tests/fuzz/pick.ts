import type { Random } from '../../data/demo/random.ts';

export const pick = <T>(random: Random, from: readonly T[]): T => {
  if (from.length === 0) throw new Error('there is nothing to pick from');
  return from[random.below(from.length)]!;
};

/** One of several, each as often as its weight, which is 1 where it says none. */
export function pickWeighed<T extends { readonly weight?: number }>(random: Random, from: readonly T[]): T {
  let left = random.uniform() * from.reduce((sum, { weight = 1 }) => sum + weight, 0);
  return from.find(({ weight = 1 }) => (left -= weight) <= 0) ?? from.at(-1)!;
}

/** Whole number, the least and the most included. */
export const whole = (random: Random, least: number, most: number): number => least + random.below(most - least + 1);
