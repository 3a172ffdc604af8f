import { shrinkRates, type ObservedExpected } from '../../statistics/index.ts';
import { firmnessRule } from '../firmness.ts';

/** Ratios drawn to their common mean, with posterior limits; null where nothing is expected of a group. */
export interface Shrunken {
  readonly ratio: readonly ({ readonly value: number; readonly lower: number; readonly upper: number } | null)[];
  /** How many times as large as by chance alone the variance of a ratio is, through vehicles and the error of the expected; at least 1. */
  readonly design: number;
  /** False where the groups differ no more than chance has them differ. */
  readonly differ: boolean;
}

/**
 * The variance of the log ratios against that of a share of all events known by chance alone, over
 * the groups with failures enough, each by its failures.
 */
export function designEffect({ observed, standardErrorLog }: ObservedExpected): number {
  const total = observed.reduce((sum, events) => sum + events, 0);
  let [sum, weights] = [0, 0];
  observed.forEach((events, group) => {
    const error = standardErrorLog[group];
    if (error == null || events < firmnessRule.thinFailures || events === total) return;
    sum += events * error ** 2 * (events / (1 - events / total));
    weights += events;
  });
  return weights === 0 ? 1 : Math.max(1, sum / weights);
}

/**
 * Gamma–Poisson posterior of each group's ratio, averaged over priors. It knows chance alone: its
 * limits are drawn apart by the root of the design effect.
 */
export function shrunkenRatios(compared: ObservedExpected): Shrunken {
  const { observed, expected, level } = compared;
  const design = designEffect(compared);
  const places = Array.from(expected.keys()).filter((group) => (expected[group] as number) > 0);
  const pick = (values: Float64Array) => places.map((group) => values[group] as number);
  const { averaged, value, lower, upper, heterogeneous } = shrinkRates(
    { events: pick(observed), exposure: pick(expected) },
    { level },
  );
  const posterior = averaged ?? { value, lower, upper };
  const apart = (limit: number, middle: number) => middle * (limit / middle) ** Math.sqrt(design);
  return {
    design,
    differ: heterogeneous,
    ratio: Array.from(expected.keys(), (group) => {
      const at = places.indexOf(group);
      if (at < 0) return null;
      const middle = posterior.value[at] as number;
      return {
        value: middle,
        lower: apart(posterior.lower[at] as number, middle),
        upper: apart(posterior.upper[at] as number, middle),
      };
    }),
  };
}
