import type { CoxProblem } from './cox-problem.ts';
import { riskSumsFor, sweepTotals } from './cox-sweep.ts';
import type { Failed, FailedUnder, LifeRatios } from './excess-share-failed.ts';
import type { ExcessFit } from './excess-share-fit.ts';
import type { ExcessLives } from './excess-share-lives.ts';
import type { Random } from './numeric/random.ts';

/**
 * Cluster bootstrap by multipliers: each draw weights every cluster by an independent exponential of
 * mean 1 (Rubin 1981, Annals of Statistics 9:130; Jin, Ying & Wei 2001, Biometrika 88:381), so that no
 * draw loses the last exposed failure. The coefficients follow by one step, the sum of the clusters'
 * influences so weighted; baseline hazards and standardisation are worked out anew under the weights.
 */
export function drawFailed(
  lives: ExcessLives,
  fit: ExcessFit,
  ratios: LifeRatios,
  failedUnder: FailedUnder,
  { draws, random, onDraw }: { draws: number; random: Random; onDraw: (done: number) => void },
): Failed[] {
  const width = fit.problem.width;
  const multiplier = new Float64Array(lives.cluster.count);
  const hazardUnder = weightedHazard(lives, fit, ratios);
  return Array.from({ length: draws }, (_, draw) => {
    const moved = fit.beta.slice();
    for (let cluster = 0, at = 0; cluster < multiplier.length; cluster++) {
      const away = (multiplier[cluster] = random.exponential()) - 1;
      for (let j = 0; j < width; j++, at++) moved[j] = (moved[j] as number) + away * (fit.influence[at] as number);
    }
    ratios.moveTo(moved);
    const failed = failedUnder(hazardUnder(multiplier), multiplier);
    onDraw(draw + 1);
    return failed;
  });
}

/** Hazard increments by event time under multipliers by cluster, at the coefficients the ratios were last moved to. */
function weightedHazard(lives: ExcessLives, { problem, clusterOfRow }: ExcessFit, ratios: LifeRatios) {
  const { sets, weight } = problem;
  const { row, piece } = lives.split;
  const levels = lives.exposure.levels.length;
  const count = sets.row.length;
  const lifeAt = Int32Array.from(sets.row, (at) => row[at] as number);
  const clusterAt = Int32Array.from(sets.row, (at) => clusterOfRow[at] as number);
  const patternAt = lifeAt.map((life) => ratios.patternOf[life] as number);
  const effectAt = Int32Array.from(sets.row, (at, position) => {
    return (piece[at] as number) * levels + (lives.exposure.codes[lifeAt[position] as number] as number);
  });
  const risk = new Float64Array(count);
  const failing = new Float64Array(sets.time.length);
  // One pattern of ratio 1 and no columns: what a position's risk is stands in its weight.
  const plain: CoxProblem = {
    ...{ ...problem, width: 0, patterns: 1, table: new Float64Array(0), pattern: new Int32Array(count), offset: null },
    ...{ weight: risk, events: { weight: failing, design: new Float64Array(0), offset: 0 } },
  };
  const sums = riskSumsFor(plain);
  const none = new Float64Array(0);
  return (multiplier: Float64Array): Float64Array => {
    for (let time = 0; time < failing.length; time++) {
      const from = sets.firstPosition[time] as number;
      const alive = from + (sets.deaths[time] as number);
      let dying = 0;
      for (let position = from; position < (sets.firstPosition[time + 1] as number); position++) {
        let w = multiplier[clusterAt[position] as number] as number;
        if (weight) w *= weight[position] as number;
        if (position < alive) dying += w;
        const ratio = ratios.ratio[patternAt[position] as number] as number;
        risk[position] = w * ratio * (ratios.effect[effectAt[position] as number] as number);
      }
      failing[time] = dying;
    }
    sweepTotals(plain, none, sums);
    return sums.hazard;
  };
}
