import { createRandom, type Random } from './numeric/random.ts';

export interface CusumPlan {
  readonly ratio: number;
  readonly model: 'count' | 'binary';
  /** Expected events of each step, or risk of each subject; null to look at every event as it comes. */
  readonly steps: Float64Array | null;
  /** Expected events over the period. */
  readonly total: number;
  readonly dispersion: number;
  readonly expectedErrorLog: number;
  readonly simulations: number;
  readonly seed: number;
}

/** What one step adds to the score: the log likelihood ratio of the change against none. */
export const cusumWeight = (seen: number, predicted: number, ratio: number, model: 'count' | 'binary'): number =>
  seen * Math.log(ratio) - (model === 'count' ? (ratio - 1) * predicted : Math.log1p((ratio - 1) * predicted));

/** Highest score of each simulated period in which nothing changed. */
export function simulateCusumMaxima(plan: CusumPlan): Float64Array {
  const random = createRandom(plan.seed);
  return Float64Array.from({ length: plan.simulations }, () => {
    const truth = Math.exp(plan.expectedErrorLog * random.normal());
    return plan.steps ? playSteps(plan, plan.steps, truth, random) : playEvents(plan, truth, random);
  });
}

/** `truth` times as many events as expected, in steps. */
function playSteps(plan: CusumPlan, steps: Float64Array, truth: number, random: Random): number {
  let [score, most] = [0, 0];
  for (let step = 0; step < steps.length; step++) {
    const expected = steps[step] as number;
    let seen = 0;
    if (plan.model === 'count') {
      const clump = clumpMean(plan.dispersion);
      for (let clumps = random.poisson((truth * expected) / clump); clumps > 0; clumps--)
        seen += geometric(clump, random);
    } else {
      // The reference may be off by a factor on the odds.
      const odds = (truth * expected) / (1 - expected);
      seen = random.uniform() * (1 + odds) < odds ? 1 : 0;
    }
    score = Math.max(0, score + cusumWeight(seen, expected, plan.ratio, plan.model));
    most = Math.max(most, score);
  }
  return most;
}

/** Events as a Poisson process on the scale of the expected count, each looked at as it comes. */
function playEvents({ ratio, total, dispersion }: CusumPlan, truth: number, random: Random): number {
  const [jump, drift, clump] = [Math.log(ratio), ratio - 1, clumpMean(dispersion)];
  let [score, most] = [0, 0];
  for (let now = 0; ;) {
    const gap = (random.exponential() * clump) / truth;
    // For a ratio below 1 the score climbs between events and falls at them; above 1 the other way round.
    score = Math.max(0, score - drift * Math.min(gap, total - now));
    most = Math.max(most, score);
    now += gap;
    if (now >= total) return most;
    score = Math.max(0, score + jump * geometric(clump, random));
    most = Math.max(most, score);
  }
}

/** Overdispersed events come in clumps of geometric size N: variance over mean is E[N²]/E[N] = 2·E[N] − 1. */
const clumpMean = (dispersion: number): number => (dispersion + 1) / 2;

const geometric = (mean: number, random: Random): number =>
  mean === 1 ? 1 : 1 + Math.floor(-random.exponential() / Math.log1p(-1 / mean));
