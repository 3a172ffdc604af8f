import { logLifeLikelihood, type LifeDesign } from './log-life-likelihood.ts';
import type { LogLifeDistribution } from './log-life-distribution.ts';
import { INTERVAL, LEFT, RIGHT, type LifeRows } from './life-rows.ts';
import { maximise, type Maximum } from './numeric/maximise.ts';

/** Shapes below this are taken for a likelihood that climbs towards zero shape and has no maximum. */
export const LEAST_ALPHA = 0.005;
/** Shapes beyond are not of lives: a climb that has come here and not ended is climbing without end. */
export const MOST_ALPHA = 60;

/** The maximum over (γ, α), or over γ alone where α is fixed; no covariates. */
export function maximiseLogLife(rows: LifeRows, distribution: LogLifeDistribution, tolerance?: number): Maximum {
  let best: Maximum | null = null;
  for (const factor of [1, 0.4, 2.5, 0.1]) {
    const result = climbInStages(rows, distribution, null, startLogLife(rows, distribution, factor), tolerance);
    if (result.converged) return result;
    if (best === null || result.evaluation.value > best.evaluation.value) best = result;
  }
  return best as Maximum;
}

/** Rows looked at before all are, where there are many: the top of the sample is a start a step or three from the top. */
const SAMPLE = 40_000;

/** As near to the top, in standard errors, as the fit without covariates has to come where rows are many. */
const NEAR = 0.02;

/**
 * Where the covariates' climb starts, and the log-likelihood they are judged against. Of many rows the last steps to the
 * top are spared: what they would gain is half the squared distance, to within its cube over the root of the failures.
 */
export function maximiseWithoutCovariates(
  rows: LifeRows,
  distribution: LogLifeDistribution,
): { readonly parameters: Float64Array; readonly value: number } {
  const top = maximiseLogLife(rows, distribution, rows.size > 2 * SAMPLE ? NEAR : undefined);
  const left = top.converged ? top.distance ** 2 / 2 : 0;
  return { parameters: top.parameters, value: top.evaluation.value + left };
}

/** Climbs on a sample of the rows first, where they are many, and then on all. */
export function climbInStages(
  rows: LifeRows,
  { terms, fixedAlpha }: LogLifeDistribution,
  design: LifeDesign | null,
  start: ArrayLike<number>,
  tolerance = 1e-9,
): Maximum {
  const inside = (theta: Float64Array) => fixedAlpha !== null || (theta[theta.length - 1] as number) > 0;
  const stride = Math.floor(rows.size / SAMPLE);
  const sampled = (first: ArrayLike<number>) => {
    const evaluate = logLifeLikelihood(rows, terms, design, { fixedAlpha, stride });
    const part = maximise(evaluate, first, { inside, tolerance: 1e-3 });
    return part.converged ? part.parameters : first;
  };
  const from = stride > 1 ? sampled(start) : start;
  return maximise(logLifeLikelihood(rows, terms, design, { fixedAlpha }), from, { inside, tolerance });
}

/** Start values from the spread of the failures' log lives, and the level at which the failure count comes out right. */
function startLogLife(rows: LifeRows, distribution: LogLifeDistribution, factor: number): number[] {
  const step = Math.max(1, Math.floor(rows.size / SAMPLE));
  let [failed, total, sum, square, largest] = [0, 0, 0, 0, -Infinity];
  for (let row = 0; row < rows.size; row += step) {
    const [w, at] = [rows.weight ? (rows.weight[row] as number) : 1, middle(rows, row)];
    total += w;
    if (at > largest) largest = at;
    if (rows.kind[row] === RIGHT) continue;
    failed += w;
    sum += w * at;
    square += w * at * at;
  }
  const variance = failed > 0 ? square / failed - (sum / failed) ** 2 : 0;
  const plain = variance > 1e-8 ? distribution.spread / Math.sqrt(variance) : 3;
  const alpha = distribution.fixedAlpha ?? factor * Math.min(Math.max(plain, 0.2), 12);
  let hazard = 0;
  for (let row = 0; row < rows.size; row += step) {
    const before = rows.logEntry ? Math.exp(alpha * ((rows.logEntry[row] as number) - largest)) : 0;
    const w = rows.weight ? (rows.weight[row] as number) : 1;
    hazard += w * (Math.exp(alpha * (middle(rows, row) - largest)) - before);
  }
  // γ with Σ e^z = failures: exact for exponential lives, and a sane level for all others.
  const gamma = alpha * largest + Math.log(Math.max(hazard, 1e-12 * total) / Math.max(failed, 1e-3 * total));
  return distribution.fixedAlpha === null ? [gamma, alpha] : [gamma];
}

function middle({ kind, log, logLower }: LifeRows, row: number): number {
  const at = log[row] as number;
  if (kind[row] === LEFT) return at - Math.LN2;
  return kind[row] === INTERVAL ? (at + ((logLower as Float64Array)[row] as number)) / 2 : at;
}
