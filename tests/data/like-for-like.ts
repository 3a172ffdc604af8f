import type { LifeTruth } from '../../data/demo/life-truth-row.ts';

const AGE_BANDS = [0, 10_000, 25_000, 50_000, 100_000, 150_000, 250_000, Infinity];

export interface Comparison {
  readonly lives: number;
  readonly failures: number;
  /** Failures per million miles of exposure, as they stand. */
  readonly raw: number;
  /** Failures over those expected at the fleet's rates by role, lubricant, build, duty and age. */
  readonly ratio: number;
}

/** Indirect standardisation (Breslow & Day 1987, vol. II, §2.3) within all `lives`. */
export function likeForLike(lives: readonly LifeTruth[]): (some: readonly LifeTruth[]) => Comparison {
  const failures = new Map<string, number>();
  const exposure = new Map<string, number>();
  for (const life of lives)
    for (const [stratum, miles, failed] of strataOf(life)) {
      exposure.set(stratum, (exposure.get(stratum) ?? 0) + miles);
      failures.set(stratum, (failures.get(stratum) ?? 0) + failed);
    }
  return (some) => {
    let observed = 0;
    let expected = 0;
    let miles = 0;
    for (const life of some)
      for (const [stratum, run, failed] of strataOf(life)) {
        observed += failed;
        miles += run;
        expected += (run * (failures.get(stratum) ?? 0)) / (exposure.get(stratum) as number);
      }
    return { lives: some.length, failures: observed, raw: (observed / miles) * 1e6, ratio: observed / expected };
  };
}

function strataOf(life: LifeTruth): [stratum: string, miles: number, failed: number][] {
  const pieces: [string, number, number][] = [];
  for (let band = 0; band + 1 < AGE_BANDS.length; band++) {
    const from = Math.max(life.entry_age, AGE_BANDS[band] as number);
    const to = Math.min(life.exit_age, AGE_BANDS[band + 1] as number);
    if (to <= from) continue;
    const failed = life.end === 'failed' && life.exit_age === to ? 1 : 0;
    pieces.push([[life.role, life.lubricant, life.hub_build, life.duty, band].join(' '), to - from, failed]);
  }
  return pieces;
}
