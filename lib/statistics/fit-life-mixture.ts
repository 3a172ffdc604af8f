import { RIGHT, type LifeRows } from './life-rows.ts';
import { LOG_LIFE_DISTRIBUTIONS } from './log-life-distribution.ts';
import { maximiseLogLife } from './maximise-log-life.ts';
import { earlyShares, MIXTURE_SIZE, mixtureLikelihood, mixtureMeat } from './mixture-likelihood.ts';
import {
  mixtureParameters,
  mixturePredictions,
  type MixtureParameters,
  type MixturePredictions,
} from './mixture-estimates.ts';
import { mixtureStarts, SHAPE_RANGE, thinRows } from './mixture-starts.ts';
import { invertCholesky, sandwich } from './numeric/cholesky.ts';
import { maximise, type Maximum } from './numeric/maximise.ts';
import { clusterWarnings } from './regression-result.ts';
import { transformCovariance, type WorkingParameters } from './working-estimates.ts';

export interface MixtureFit extends MixturePredictions {
  readonly distribution: 'weibull-mixture';
  /**
   * The early part is the one with the shorter median life. Their limits are short while few lives tell the parts
   * apart: with 250 lives, one in five early, nominal 95 % ones hold 83 to 90 % (the wear-out scale 95 %). The curve
   * is better known than its parts: `lifeAt` and `survivalAt` hold 95 % there.
   */
  readonly parameters: MixtureParameters;
  /** Of the parameters as listed, row-major 5 × 5. */
  readonly covariance: Float64Array | null;
  readonly robustCovariance?: Float64Array | null;
  /** (logit of the early share, then location and log spread of log life of the early and of the wear-out part). */
  readonly working: WorkingParameters;
  readonly logLikelihood: number;
  readonly aic: number;
  /** With the number of failures for the sample size (Volinsky & Raftery 2000). */
  readonly bic: number;
  /** The same for one Weibull. */
  readonly single: { readonly logLikelihood: number; readonly aic: number; readonly bic: number };
  /** False where the data do not call for two parts; `reason` then says why, and the fit should not be used. */
  readonly supported: boolean;
  readonly reason: string | null;
  readonly subjects: number;
  readonly failures: number;
  /** Latest age at which anything was seen: what the fit says beyond it is extrapolation. */
  readonly observedTo: number;
  readonly clusters?: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly warnings: readonly string[];
}

/** Failures that a part must be expected to explain before it is believed. */
const LEAST_FAILURES = 5;

/** Two-part Weibull mixture of checked rows; see fitLife. */
export function fitMixture(rows: LifeRows, level: number): MixtureFit {
  const single = maximiseLogLife(rows, LOG_LIFE_DISTRIBUTIONS.weibull);
  const top = maximiseMixture(rows, single);
  const working = toWorking(rows, top);
  const of = (value: number, parameters: number) => {
    const logLikelihood = value + rows.logJacobian;
    const bic = parameters * Math.log(rows.failedWeight) - 2 * logLikelihood;
    return { logLikelihood, aic: 2 * parameters - 2 * logLikelihood, bic };
  };
  const [mixed, alone] = [of(top.evaluation.value, MIXTURE_SIZE), of(single.evaluation.value, 2)];
  const reason = reasonAgainst(rows, top, mixed.bic - alone.bic);
  const clusters = rows.cluster?.count ?? null;
  const { parameters, jacobian } = mixtureParameters(working, level);
  const natural = (covariance: Float64Array | null) =>
    covariance && transformCovariance(jacobian, covariance, MIXTURE_SIZE);
  return {
    distribution: 'weibull-mixture',
    parameters,
    covariance: natural(working.covariance),
    ...(working.robustCovariance ? { robustCovariance: natural(working.robustCovariance) } : {}),
    working,
    ...mixed,
    single: alone,
    supported: reason === null,
    reason,
    subjects: rows.totalWeight,
    failures: rows.failedWeight,
    observedTo: rows.observedTo,
    ...(clusters === null ? {} : { clusters }),
    iterations: top.iterations,
    converged: top.converged,
    warnings: [
      ...(top.converged ? [] : [`did not converge in ${top.iterations} iterations`]),
      ...clusterWarnings(clusters).map(({ message }) => message),
    ],
    ...mixturePredictions(working, level),
  };
}

/** The best interior maximum over all starts; the likelihood has higher points where a part collapses on one life. */
function maximiseMixture(rows: LifeRows, single: Maximum): Maximum {
  const thin = thinRows(rows);
  const [gamma, alpha] = single.parameters as unknown as [number, number];
  const climb = (data: LifeRows, start: Float64Array) =>
    maximise(mixtureLikelihood(data), start, { inside, longestStep: [2, 5, 0.7, 5, 0.7], maxIterations: 200 });
  const ranked = (tops: Maximum[]) =>
    tops.sort((a, b) => Number(b.converged) - Number(a.converged) || b.evaluation.value - a.evaluation.value);
  const tops = ranked(mixtureStarts(thin, { gamma, alpha }).map((start) => climb(thin, start)));
  if (thin === rows) return tops[0] as Maximum;
  return ranked(tops.slice(0, 2).map((top) => climb(rows, top.parameters)))[0] as Maximum;
}

function inside(theta: Float64Array): boolean {
  const shape = (k: number) => Math.exp(theta[k] as number);
  const within = (alpha: number) => alpha > SHAPE_RANGE.least && alpha < SHAPE_RANGE.most;
  return Math.abs(theta[0] as number) < 12 && within(shape(2)) && within(shape(4));
}

/** (logit, γ, log α, γ, log α) on centred log time to the working parameters, the earlier part first. */
function toWorking(rows: LifeRows, top: Maximum): WorkingParameters {
  const theta = top.parameters;
  const values = new Float64Array(MIXTURE_SIZE);
  const jacobian = new Float64Array(MIXTURE_SIZE * MIXTURE_SIZE);
  const median = (k: number) => ((theta[k] as number) + Math.log(Math.LN2)) / Math.exp(theta[k + 1] as number);
  const swap = median(3) < median(1);
  values[0] = (swap ? -1 : 1) * (theta[0] as number);
  jacobian[0] = swap ? -1 : 1;
  for (const part of [0, 1]) {
    const [to, from] = [1 + 2 * part, 1 + 2 * (swap ? 1 - part : part)];
    const [gamma, alpha] = [theta[from] as number, Math.exp(theta[from + 1] as number)];
    values[to] = gamma / alpha + rows.logUnit;
    values[to + 1] = -(theta[from + 1] as number);
    jacobian[to * MIXTURE_SIZE + from] = 1 / alpha;
    jacobian[to * MIXTURE_SIZE + from + 1] = -gamma / alpha;
    jacobian[(to + 1) * MIXTURE_SIZE + from + 1] = -1;
  }
  const bread = top.converged && top.information ? invertCholesky(top.information) : null;
  const meat = bread && mixtureMeat(rows, theta);
  return {
    names: ['logitEarlyShare', 'earlyLocation', 'earlyLogSpread', 'wearOutLocation', 'wearOutLogSpread'],
    values,
    covariance: bread && transformCovariance(jacobian, bread, MIXTURE_SIZE),
    robustCovariance: bread && meat && transformCovariance(jacobian, sandwich(bread, meat, MIXTURE_SIZE), MIXTURE_SIZE),
  };
}

/** Failures each part is expected to explain decide with the information criterion whether two parts are called for. */
function reasonAgainst(rows: LifeRows, top: Maximum, bicRise: number): string | null {
  if (!top.converged) return 'no maximum with two parts was found inside the range of shapes';
  if (bicRise >= 0) return 'two parts fit no better than one Weibull for the parameters they cost (BIC)';
  const fewest = Math.min(...expectedFailures(rows, top.parameters));
  return fewest < LEAST_FAILURES ? `one part explains fewer than ${LEAST_FAILURES} failures` : null;
}

function expectedFailures(rows: LifeRows, theta: Float64Array): [number, number] {
  const { end } = earlyShares(rows, theta);
  let [early, late] = [0, 0];
  for (let row = 0; row < rows.size; row++) {
    if (rows.kind[row] === RIGHT) continue;
    const w = rows.weight ? (rows.weight[row] as number) : 1;
    early += w * (end[row] as number);
    late += w * (1 - (end[row] as number));
  }
  return [early, late];
}
