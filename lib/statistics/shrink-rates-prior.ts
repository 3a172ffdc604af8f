import gammaln from '@stdlib/math-base-special-gammaln';
import { invertCholesky } from './numeric/cholesky.ts';
import { logRising } from './numeric/log-rising.ts';
import { maximise, type Evaluation } from './numeric/maximise.ts';

export interface GammaPrior {
  readonly shape: number;
  /** In units of exposure: the prior weighs as much as so many miles watched. */
  readonly rate: number;
  readonly mean: number;
  /** Of the counts, each negative binomial once its rate is integrated out. */
  readonly logLikelihood: number;
  /** Row-major 2 × 2 covariance of (log shape, log rate). */
  readonly covariance: Float64Array;
  readonly converged: boolean;
}

/**
 * Marginal maximum likelihood of a gamma prior over Poisson rates, in (log shape, log mean), which are nearly
 * uncorrelated. Null at the boundary, where no finite shape beats one common rate.
 */
export function fitGammaPrior(events: Float64Array, exposure: Float64Array): GammaPrior | null {
  const total = events.reduce((sum, count) => sum + count, 0);
  const logPooled = Math.log(total / exposure.reduce((sum, value) => sum + value, 0));
  const evaluate = (parameters: Float64Array) => marginal(events, exposure, parameters);
  const common = poissonLogLikelihood(events, exposure, Math.exp(logPooled));
  let [start, best] = [0, -Infinity];
  for (let logShape = -6; logShape <= 16; logShape += 0.5) {
    const { value } = evaluate(Float64Array.of(logShape, logPooled));
    if (value > best) [start, best] = [logShape, value];
  }
  const inside = ([logShape]: Float64Array) => Math.abs(logShape as number) < 20;
  const top = maximise(evaluate, [start, logPooled], { inside, longestStep: [2, 2] });
  const [logShape, logMean] = top.parameters as unknown as [number, number];
  const logLikelihood = top.evaluation.value;
  if (!(logLikelihood > common + 1e-9 * (1 + Math.abs(common))) || logShape > 16 || !top.information) return null;
  const [a, b, , d] = invertCholesky(top.information) as unknown as [number, number, number, number];
  const shape = Math.exp(logShape);
  const mean = Math.exp(logMean);
  // log rate = log shape − log mean.
  const covariance = Float64Array.of(a, a - b, a - b, a - 2 * b + d);
  return { shape, rate: shape / mean, mean, logLikelihood, covariance, converged: top.converged };
}

/** Negative binomial log-likelihood with its derivatives in (log shape, log mean). */
export function marginal(events: Float64Array, exposure: Float64Array, [logShape, logMean]: Float64Array): Evaluation {
  const a = Math.exp(logShape as number);
  const rate = Math.exp(logMean as number);
  let [value, slopeA, slopeM, bendA, bendAM, bendM] = [0, 0, 0, 0, 0, 0];
  for (let unit = 0; unit < events.length; unit++) {
    const [y, m] = [events[unit] as number, rate * (exposure[unit] as number)];
    if (m === 0) continue;
    const rising = logRising([y], a);
    const [logRose, slope, bend] = [rising.value[0], rising.slope[0], rising.bend[0]] as [number, number, number];
    value += logRose + y * Math.log(m) - (y + a) * Math.log1p(m / a) - gammaln(y + 1);
    slopeA += slope - Math.log1p(m / a) + ((y + a) * m) / (a * (a + m));
    bendA += bend + m / (a * (a + m)) + (m * (a * (a + m) - (y + a) * (2 * a + m))) / (a * (a + m)) ** 2;
    slopeM += ((y - m) * a) / (a + m);
    bendM -= (m * a * (a + y)) / (a + m) ** 2;
    bendAM += ((y - m) * m) / (a + m) ** 2;
  }
  // Chain rule from the shape to its logarithm.
  const hessian = Float64Array.of(a * a * bendA + a * slopeA, a * bendAM, a * bendAM, bendM);
  return { value, gradient: Float64Array.of(a * slopeA, slopeM), hessian };
}

function poissonLogLikelihood(events: Float64Array, exposure: Float64Array, rate: number): number {
  return events.reduce((sum, count, unit) => {
    const mean = rate * (exposure[unit] as number);
    return mean === 0 ? sum : sum + count * Math.log(mean) - mean - gammaln(count + 1);
  }, 0);
}
