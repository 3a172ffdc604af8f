import { cumulate } from './cox-likelihood.ts';
import { designMatrix, designTable } from './design-matrix.ts';
import { designPatterns } from './design-patterns.ts';
import type { ExcessFit } from './excess-share-fit.ts';
import type { ExcessLives } from './excess-share-lives.ts';

/** What a model expects of the lives by the horizon. */
export interface Failed {
  /** Share of the lives that are exposed. */
  readonly exposedShare: number;
  /** Share failed as recorded, and without the exposure. */
  readonly asRecorded: number;
  readonly without: number;
}

/** Hazard ratios of lives at some coefficients. */
export interface LifeRatios {
  /** Of the covariates but the exposure, by pattern, against the centre of the fit. */
  readonly ratio: Float64Array;
  /** Pattern of each life. */
  readonly patternOf: Int32Array;
  /** Of each level of the exposure in each piece, pieces × levels. */
  readonly effect: Float64Array;
  /** The covariates by pattern, row-major, and the column of the problem each belongs to; −1 for none. */
  readonly design: { readonly table: Float64Array; readonly columnOf: readonly number[] };
  /** Fills both at coefficients centred and scaled. */
  moveTo(beta: Float64Array): void;
}

/** Ratios life by life, which lives alike share. */
export function lifeRatios(lives: ExcessLives, { problem, terms, effects }: ExcessFit): LifeRatios {
  const { centre, scale, width } = problem;
  const { others, exit } = lives;
  const design = designMatrix(others, exit.length);
  const folded = designPatterns(design);
  const patternOf = folded ? folded.ofRow : Int32Array.from(exit.keys());
  const ratio = new Float64Array(folded ? folded.count : exit.length);
  const effect = new Float64Array(effects.length);
  // Terms that the fit left out say nothing here either.
  const columnOf = design.terms.map((term) => terms.indexOf(term));
  const table = designTable(design, folded ? folded.example : patternOf);
  const slope = new Float64Array(columnOf.length);
  const moveTo = (beta: Float64Array): void => {
    let shift = 0;
    for (let j = 0; j < width; j++) shift -= ((beta[j] as number) / (scale[j] as number)) * (centre[j] as number);
    columnOf.forEach((column, j) => (slope[j] = column < 0 ? 0 : (beta[column] as number) / (scale[column] as number)));
    for (let k = 0, at = 0; k < ratio.length; k++) {
      let sum = shift;
      for (let j = 0; j < slope.length; j++, at++) sum += (table[at] as number) * (slope[j] as number);
      ratio[k] = Math.exp(sum);
    }
    effects.forEach((column, k) => {
      effect[k] = column < 0 ? 1 : Math.exp((beta[column] as number) / (scale[column] as number));
    });
  };
  return { ratio, patternOf, effect, design: { table, columnOf }, moveTo };
}

/** From the hazard increments by event time, and a multiplier by cluster (null for ones). */
export type FailedUnder = (increments: Float64Array, multiplier: Float64Array | null) => Failed;

/**
 * Standardised failures: the mean over the lives of 1 − S(horizon | own covariates, own stratum),
 * with their exposure and without, at the coefficients the ratios were last moved to. A life that
 * came under watch late stands for those like it that failed unseen: it counts 1 / S(entry | own).
 */
export function failedByHorizon(lives: ExcessLives, fit: ExcessFit, ratios: LifeRatios): FailedUnder {
  const { weight, strata, cluster, exposure, removed, pieces } = lives;
  const { ratio, patternOf, effect } = ratios;
  const [levels, parts] = [exposure.levels.length, pieces.length];
  const { ends, late } = hazardPlaces(lives, fit);
  return (increments, multiplier) => {
    const hazard = cumulate(fit.problem.sets.firstTime, increments);
    let [all, exposed, failed, spared] = [0, 0, 0, 0];
    for (let life = 0; life < patternOf.length; life++) {
      const own = ratio[patternOf[life] as number] as number;
      const level = exposure.codes[life] as number;
      const isExposed = removed[level] === 1;
      const entryAt = late ? (late[life] as number) : -1;
      const entered = entryAt < 0 ? 0 : (hazard[entryAt] as number);
      let [asRecorded, without, before, start] = [0, 0, 0, 0];
      for (let piece = 0, at = (strata.codes[life] as number) * parts; piece < parts; piece++, at++) {
        const endAt = ends[at] as number;
        const end = endAt < 0 ? 0 : (hazard[endAt] as number);
        const times = effect[piece * levels + level] as number;
        asRecorded += times * (end - start);
        without += (isExposed ? 1 : times) * (end - start);
        if (entered > start) before += times * (Math.min(entered, end) - start);
        start = end;
      }
      let w = weight ? (weight[life] as number) : 1;
      if (multiplier) w *= multiplier[cluster.codes[life] as number] as number;
      if (before > 0) w *= Math.exp(own * before);
      const fails = -Math.expm1(-own * asRecorded);
      all += w;
      failed += w * fails;
      if (!isExposed) continue;
      exposed += w;
      spared += w * (fails + Math.expm1(-own * without));
    }
    return { exposedShare: exposed / all, asRecorded: failed / all, without: (failed - spared) / all };
  };
}

/** Event times at which each piece ends in each stratum (strata × pieces), and at which late lives entered; −1 for none. */
export function hazardPlaces({ entry, strata, split, pieces }: ExcessLives, { problem: { sets } }: ExcessFit) {
  const parts = pieces.length;
  return {
    ends: Int32Array.from({ length: sets.strata.length * parts }, (_, index) =>
      lastTime(sets, Math.floor(index / parts), split.cuts[index % parts] ?? Infinity),
    ),
    late: entry && Int32Array.from(entry, (time, life) => lastTime(sets, strata.codes[life] as number, time)),
  };
}

/** Last event time of a stratum at or before a limit; −1 for none. */
function lastTime({ firstTime, time }: ExcessFit['problem']['sets'], stratum: number, limit: number): number {
  const first = firstTime[stratum] as number;
  let [low, high] = [first, firstTime[stratum + 1] as number];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((time[middle] as number) <= limit) low = middle + 1;
    else high = middle;
  }
  return low === first ? -1 : low - 1;
}
