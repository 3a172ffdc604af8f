import { DETECTION_PARAMETERS, detectionScores } from './detection-likelihood.ts';
import { FOUND, type DetectionPieces } from './detection-pieces.ts';
import { maximise, type Evaluation } from './numeric/maximise.ts';

export interface DetectionTop {
  readonly at: Float64Array;
  /** Places of the parameters that were free. */
  readonly free: readonly number[];
  readonly value: number;
  readonly converged: boolean;
}

/** A rate so low that it changes nothing: where nothing was found between checks. */
const NO_RATE = -60;
/** How near the top counts as there, in standard errors. */
const NEAR = 1e-4;

/** Looks at the likelihood of one climb at most: a ridge without a top would be followed for minutes. */
const MOST_LOOKS = 150;

/** Chances a check from which the climb is tried: the likelihood may have more than one top. */
const STARTS = [0.3, 0.7, 0.95];

/** The highest of the tops reached, by Newton steps on the outer product of the scores (Berndt et al. 1974). */
export function climbDetection(pieces: DetectionPieces, between: boolean): DetectionTop {
  const free = between ? [0, 1, 2, 3] : [0, 1, 2];
  const tops = STARTS.map((chance) => climbFrom(pieces, free, startAt(pieces, chance, between)));
  return tops.reduce((best, top) =>
    (top.converged && !best.converged) || (top.converged === best.converged && top.value > best.value) ? top : best,
  );
}

function startAt({ exit, found, lives, checks }: DetectionPieces, chance: number, between: boolean): Float64Array {
  const watched = exit.reduce((sum, age) => sum + age, 0);
  const events = found.reduce((sum, code) => sum + (code === FOUND.not ? 0 : 1), 0);
  const others = found.reduce((sum, code) => sum + (code === FOUND.between ? 1 : 0), 0);
  const gap = watched / (checks + lives);
  const rate = (others / events / gap) * chance;
  return Float64Array.of(
    ...[0.2, Math.log(watched / events), Math.log(chance / (1 - chance))],
    between ? Math.log(rate) : NO_RATE,
  );
}

function climbFrom(pieces: DetectionPieces, free: readonly number[], start: Float64Array): DetectionTop {
  const whole = (parameters: Float64Array) => {
    const at = start.slice();
    free.forEach((place, k) => (at[place] = parameters[k] as number));
    return at;
  };
  let looks = 0;
  const evaluate = (parameters: Float64Array): Evaluation => {
    const n = free.length;
    const gradient = new Float64Array(n);
    const hessian = new Float64Array(n * n);
    if (looks++ >= MOST_LOOKS) return { value: NaN, gradient, hessian };
    const { value, scores } = detectionScores(pieces, whole(parameters));
    for (let row = 0; row < scores.length; row += DETECTION_PARAMETERS)
      for (let j = 0; j < n; j++) {
        const own = scores[row + (free[j] as number)] as number;
        gradient[j] = (gradient[j] as number) + own;
        for (let k = 0; k < n; k++)
          hessian[j * n + k] = (hessian[j * n + k] as number) - own * (scores[row + (free[k] as number)] as number);
      }
    return { value, gradient, hessian };
  };
  const inside = (parameters: Float64Array) =>
    Math.abs(parameters[0] as number) < 4 && Math.abs(parameters[2] as number) < 15;
  const from = free.map((place) => start[place] as number);
  const longestStep = free.map(() => 1);
  const top = maximise(evaluate, from, { tolerance: NEAR / 10, maxIterations: 60, longestStep, inside });
  return {
    ...{ at: whole(top.parameters), free, value: top.evaluation.value },
    converged: top.converged || (top.distance <= NEAR && top.information !== null),
  };
}

const gradientAt = (pieces: DetectionPieces, at: Float64Array, free: readonly number[]): number[] => {
  const { scores } = detectionScores(pieces, at);
  const sums = free.map(() => 0);
  for (let row = 0; row < scores.length; row += DETECTION_PARAMETERS)
    free.forEach((place, k) => (sums[k] = (sums[k] as number) + (scores[row + place] as number)));
  return sums;
};

/** Minus the second derivatives at the top, from differences of the slopes. */
export function curvature(pieces: DetectionPieces, at: Float64Array, free: readonly number[]): Float64Array {
  const n = free.length;
  const step = 1e-4;
  const slopes = free.map((place) => {
    const moved = (by: number) => at.map((value, k) => (k === place ? value + by : value));
    const [up, down] = [gradientAt(pieces, moved(step), free), gradientAt(pieces, moved(-step), free)];
    return up.map((value, k) => (value - (down[k] as number)) / (2 * step));
  });
  return Float64Array.from(
    { length: n * n },
    (_, cell) =>
      -((slopes[Math.floor(cell / n)]?.[cell % n] as number) + (slopes[cell % n]?.[Math.floor(cell / n)] as number)) /
      2,
  );
}

/** Products of the scores summed within clusters; null without two clusters. */
export function clusterMeatOf(pieces: DetectionPieces, at: Float64Array, free: readonly number[]): Float64Array | null {
  const { cluster } = pieces;
  if (!cluster || new Set(cluster.codes).size < 2) return null;
  const { scores } = detectionScores(pieces, at);
  const n = free.length;
  const sums = new Float64Array(cluster.count * n);
  for (let life = 0; life < pieces.lives; life++)
    free.forEach((place, k) => {
      const cell = (cluster.codes[life] as number) * n + k;
      sums[cell] = (sums[cell] as number) + (scores[life * DETECTION_PARAMETERS + place] as number);
    });
  const meat = new Float64Array(n * n);
  for (let row = 0; row < sums.length; row += n)
    for (let j = 0; j < n; j++)
      for (let k = 0; k < n; k++)
        meat[j * n + k] = (meat[j * n + k] as number) + (sums[row + j] as number) * (sums[row + k] as number);
  return meat;
}
