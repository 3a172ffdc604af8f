import { cholesky, choleskyFailed } from './numeric/cholesky.ts';
import type { Random } from './numeric/random.ts';
import { StatisticsError } from './statistics-error.ts';
import type { LifeName } from './life-model.ts';
import type { WorkingParameters } from './working-estimates.ts';

/** A fit as far as planning on it needs it: any result of fitLife. */
export interface FittedLife {
  readonly distribution: LifeName;
  readonly working: WorkingParameters;
  readonly converged: boolean;
  /** Of a mixture: whether the data call for two parts. */
  readonly supported?: boolean;
  readonly observedTo: number;
}

export interface DrawOptions {
  /** Generator of the draws (see createRandom); the same one and seed give the same answer. */
  readonly random: Random;
  /** How many draws carry the parameters' uncertainty, default 2000. */
  readonly draws?: number;
  /** Draws already taken from the same fit (see drawParameters), so that several answers share its error. */
  readonly parameters?: readonly Float64Array[];
}

/** Confidence intervals rest on the tails of the draws: fewer than this leave them to chance. */
const FEWEST_DRAWS = 200;

export function toDrawCount(draws: number | undefined): number {
  const count = draws ?? 2000;
  if (!Number.isInteger(count) || count < FEWEST_DRAWS)
    throw new StatisticsError('draws', `${count} is not a whole number of at least ${FEWEST_DRAWS}`);
  return count;
}

/** Why a fit cannot be planned on, or null. */
export function reasonAgainstFit({ converged, supported, working }: FittedLife): string | null {
  if (!converged) return 'the life fit did not converge';
  if (supported === false) return 'the data do not call for the two parts of this fit';
  return working.covariance === null ? 'the life fit has no finite standard errors' : null;
}

/**
 * Draws of the working parameters from their approximate normal distribution, robust to
 * clusters when the fit was; those given in `parameters` are handed back.
 *
 * @throws StatisticsError where the covariance is not positive definite, or on too few draws.
 * Source: Meeker & Escobar (1998) §9.6; Gelman et al., Bayesian Data Analysis, §4.1. Outside check: by the
 * coverage of replacementInterval and forecastFailures, by simulation.
 */
export function drawParameters(
  { working }: FittedLife,
  { random, draws, parameters }: DrawOptions,
): readonly Float64Array[] {
  if (parameters) return parameters;
  const n = working.values.length;
  const factor = cholesky(working.robustCovariance ?? working.covariance ?? new Float64Array(n * n), n, 1e-14);
  if (choleskyFailed(factor)) throw new StatisticsError('fit', 'its covariance is not positive definite');
  return Array.from({ length: toDrawCount(draws) }, () => {
    const normals = Array.from({ length: n }, () => random.normal());
    return working.values.map((value, row) => {
      let moved = value;
      for (let k = 0; k <= row; k++) moved += (factor.lower[row * n + k] as number) * (normals[k] as number);
      return moved;
    });
  });
}

/** Value below which a share of the draws lies, by linear interpolation; infinities sort to the ends. */
export function drawQuantile(sorted: ArrayLike<number>, share: number): number {
  const place = share * (sorted.length - 1);
  const [low, high] = [sorted[Math.floor(place)] as number, sorted[Math.ceil(place)] as number];
  return low === high ? low : low + (place - Math.floor(place)) * (high - low);
}
