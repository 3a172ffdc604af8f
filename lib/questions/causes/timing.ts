import type { Timing } from '../words/mechanism-words.ts';
import type { EarlyAndLater } from './split-ratios.ts';

/** Early and later ratio differ where one is over this many times the other: judged by size, not by a p-value. */
export const mostChange = 1.25;

export type ObservedTiming = Timing | 'cannot-tell';

/**
 * When an effect is seen: by the later ratio over the early one, where their limits tell. Where even
 * the limits lie within 25 % it is seen throughout.
 */
export function observedTiming({ change }: EarlyAndLater): ObservedTiming {
  if (change === null || change.lower === null || change.upper === null) return 'cannot-tell';
  if (change.value < 1 / mostChange && change.upper < 1) return 'early';
  if (change.value > mostChange && change.lower > 1) return 'later';
  const size = Math.max(change.value, 1 / change.value);
  return size <= mostChange && change.upper / change.lower <= mostChange ** 4 ? 'throughout' : 'cannot-tell';
}

/** Whether one ratio throughout says too little: early and later differ by over 25 %, by size alone. */
export function changesOverTime({ early, later, change }: EarlyAndLater): boolean {
  if (change !== null) return Math.max(change.value, 1 / change.value) > mostChange;
  return early.value === 0 || later.value === 0;
}
