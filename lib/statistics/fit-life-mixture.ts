import { toFraction, toTime } from './life-arguments.ts';
import { LIFE_MODELS, mixtureParts } from './life-model.ts';
import { RIGHT, type LifeRows } from './life-rows.ts';
import { LOG_LIFE_DISTRIBUTIONS } from './log-life-distribution.ts';
import { maximiseLogLife } from './maximise-log-life.ts';
import { earlyShares, MIXTURE_SIZE, mixtureLikelihood, mixtureMeat } from './mixture-likelihood.ts';
import { mixtureStarts, SHAPE_RANGE, thinRows } from './mixture-starts.ts';
import { invertCholesky, sandwich } from './numeric/cholesky.ts';
import { findRoot } from './numeric/find-root.ts';
import { maximise, type Maximum } from './numeric/maximise.ts';
import {
  LOG_SCALE,
  transformCovariance,
  waldEstimate,
  type Estimate,
  type Scale,
  type WorkingParameters,
} from './working-estimates.ts';

export interface MixtureParameters {
  /** Share of lives that are of the early kind. */
  readonly earlyShare: Estimate;
  readonly earlyShape: Estimate;
  readonly earlyScale: Estimate;
  readonly wearOutShape: Estimate;
  readonly wearOutScale: Estimate;
}

export interface MixtureFit {
  readonly distribution: 'weibull-mixture';
  /** The early part is the one with the shorter median life. */
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
  readonly iterations: number;
  readonly converged: boolean;
  readonly warnings: readonly string[];
  lifeAt(fraction: number): Estimate;
  survivalAt(time: number): Estimate;
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
  const { parameters, jacobian } = report(working, level);
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
    iterations: top.iterations,
    converged: top.converged,
    warnings: top.converged ? [] : [`did not converge in ${top.iterations} iterations`],
    ...predictions(working, level),
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
  const bread = top.information && invertCholesky(top.information);
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

const LOGIT_SCALE: Scale = {
  to: (x) => 1 / (1 + Math.exp(-x)),
  slope: (x) => 1 / ((1 + Math.exp(-x)) * (1 + Math.exp(x))),
};

/** log(−log S), so that limits of survival stay inside 0 to 1. */
const SURVIVAL_SCALE: Scale = {
  to: (x) => Math.exp(-Math.exp(x)),
  slope: (x) => Math.exp(x - Math.exp(x)),
};

function report(working: WorkingParameters, level: number) {
  const { values } = working;
  const unit = (k: number, sign: number) => Float64Array.from({ length: MIXTURE_SIZE }, (_, j) => (j === k ? sign : 0));
  const at = (k: number, sign: number, scale: Scale) =>
    waldEstimate(working, level, sign * (values[k] as number), unit(k, sign), scale);
  const parameters: MixtureParameters = {
    earlyShare: at(0, 1, LOGIT_SCALE),
    earlyShape: at(2, -1, LOG_SCALE),
    earlyScale: at(1, 1, LOG_SCALE),
    wearOutShape: at(4, -1, LOG_SCALE),
    wearOutScale: at(3, 1, LOG_SCALE),
  };
  const jacobian = new Float64Array(MIXTURE_SIZE * MIXTURE_SIZE);
  jacobian[0] = LOGIT_SCALE.slope(values[0] as number);
  jacobian[MIXTURE_SIZE + 2] = -parameters.earlyShape.value;
  jacobian[2 * MIXTURE_SIZE + 1] = parameters.earlyScale.value;
  jacobian[3 * MIXTURE_SIZE + 4] = -parameters.wearOutShape.value;
  jacobian[4 * MIXTURE_SIZE + 3] = parameters.wearOutScale.value;
  return { parameters, jacobian };
}

function predictions(working: WorkingParameters, level: number): Pick<MixtureFit, 'lifeAt' | 'survivalAt'> {
  const { values } = working;
  const model = LIFE_MODELS['weibull-mixture'];
  return {
    lifeAt(fraction) {
      const target = Math.log1p(-toFraction(fraction));
      const logTime = logLifeOf(values, target);
      const { gradient, inLogTime } = logHazardSlopes(values, logTime);
      // H(t; θ) stays put, so d log t = −(∂H/∂θ) / (∂H/∂ log t) dθ.
      return waldEstimate(
        working,
        level,
        logTime,
        gradient.map((value) => -value / inLogTime),
        LOG_SCALE,
      );
    },
    survivalAt(time) {
      if (toTime(time) === 0) return { value: 1, standardError: 0, lower: 1, upper: 1 };
      const { gradient } = logHazardSlopes(values, Math.log(time));
      const logHazard = Math.log(-model.logSurvival(time, values));
      return waldEstimate(working, level, logHazard, gradient, SURVIVAL_SCALE);
    },
  };
}

/** Log life at which log survival is `target`; it lies between those of the two parts. */
function logLifeOf(values: Float64Array, target: number): number {
  const { early, wearOut } = mixtureParts(values);
  const ofPart = ([location, logSpread]: number[]) =>
    (location as number) + Math.exp(logSpread as number) * Math.log(-target);
  const [a, b] = [ofPart(early), ofPart(wearOut)];
  const excess = (logTime: number) => LIFE_MODELS['weibull-mixture'].logSurvival(Math.exp(logTime), values) - target;
  return a === b ? a : findRoot(excess, Math.min(a, b), Math.max(a, b));
}

/** ∂ log H / ∂θ and ∂ log H / ∂ log t of the cumulative hazard H = −log S. */
function logHazardSlopes(values: Float64Array, logTime: number) {
  const { share, early, wearOut } = mixtureParts(values);
  const part = ([location, logSpread]: number[]) => {
    const spread = Math.exp(logSpread as number);
    const z = (logTime - (location as number)) / spread;
    const survival = Math.exp(-Math.exp(z));
    const density = Math.exp(z - Math.exp(z));
    return { survival, inLocation: density / spread, inLogSpread: density * z };
  };
  const [a, b] = [part(early), part(wearOut)];
  const survival = share * a.survival + (1 - share) * b.survival;
  const slope = -1 / (survival * -Math.log(survival));
  const gradient = Float64Array.of(
    slope * share * (1 - share) * (a.survival - b.survival),
    slope * share * a.inLocation,
    slope * share * a.inLogSpread,
    slope * (1 - share) * b.inLocation,
    slope * (1 - share) * b.inLogSpread,
  );
  const inLogTime = -slope * (share * a.inLocation + (1 - share) * b.inLocation);
  return { gradient, inLogTime };
}
