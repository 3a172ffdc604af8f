import type { DoseEvidence } from './dose-evidence.ts';
import { isNominal } from './value-window.ts';

/** More readings than this at one value are no measurement's spread: a tool reads finer than that. */
export const muchRounded = 0.25;

export interface Rounding {
  readonly readings: number;
  readonly distinct: number;
  /** Share written as exactly the middle of the window. */
  readonly nominal: number;
  /** The value written most often, and its share. */
  readonly mostCommon: number;
  readonly mostCommonShare: number;
}

/** Whether readings were written down as they were read, or as they ought to be. */
export function roundingOf({ value, window }: Pick<DoseEvidence, 'value' | 'window'>): Rounding {
  const counts = new Map<number, number>();
  let nominal = 0;
  for (const own of value) {
    counts.set(own, (counts.get(own) ?? 0) + 1);
    if (isNominal(window, own)) nominal++;
  }
  const [most, times] = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0] ?? [NaN, 0];
  const share = (count: number) => (value.length === 0 ? 0 : count / value.length);
  return {
    ...{ readings: value.length, distinct: counts.size, nominal: share(nominal) },
    ...{ mostCommon: most, mostCommonShare: share(times) },
  };
}
