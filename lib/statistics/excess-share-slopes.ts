import type { LifeRatios } from './excess-share-failed.ts';
import type { ExcessFit } from './excess-share-fit.ts';

/** What a little more log hazard of each pattern, and of each effect of the exposure, does. */
interface SlopeSums {
  readonly pattern: Float64Array;
  readonly effect: Float64Array;
}

export const slopeSums = ({ effects }: ExcessFit, { ratio }: LifeRatios): SlopeSums => ({
  pattern: new Float64Array(ratio.length),
  effect: new Float64Array(effects.length),
});

export function addSlope(sums: SlopeSums, pattern: number, effect: number, common: number, own = common): void {
  sums.pattern[pattern] = (sums.pattern[pattern] as number) + common;
  sums.effect[effect] = (sums.effect[effect] as number) + own;
}

/**
 * What a little more of each scaled coefficient does: by the lives' own ratios, which are against the
 * centre of the fit, and by the baseline hazard that follows (the derivative of Σ 1/denominator).
 */
export function slopesOf(fit: ExcessFit, ratios: LifeRatios, sums: SlopeSums, rise: Float64Array): Float64Array {
  const { problem, effects } = fit;
  const { width, centre, scale, sets } = problem;
  const slopes = new Float64Array(width);
  const add = (j: number, value: number) => (slopes[j] = (slopes[j] as number) + value);
  const { table, columnOf } = ratios.design;
  for (let k = 0, at = 0; k < sums.pattern.length; k++) {
    const common = sums.pattern[k] as number;
    for (let j = 0; j < width; j++) add(j, (-common * (centre[j] as number)) / (scale[j] as number));
    for (const column of columnOf) {
      if (column >= 0) add(column, (common * (table[at] as number)) / (scale[column] as number));
      at++;
    }
  }
  effects.forEach((column, place) => {
    if (column >= 0) add(column, (sums.effect[place] as number) / (scale[column] as number));
  });
  const { first, deathFirst, outer, cross } = fit.sums;
  for (let time = 0; time < sets.time.length; time++) {
    const by = rise[time] as number;
    if (by === 0) continue;
    const [whole, shared, base] = [outer[time] as number, cross[time] as number, time * width];
    for (let j = 0; j < width; j++) {
      const tied = shared === 0 ? 0 : shared * (deathFirst[base + j] as number);
      add(j, -by * (whole * (first[base + j] as number) - tied));
    }
  }
  return slopes;
}
