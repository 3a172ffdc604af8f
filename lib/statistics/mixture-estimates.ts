import { toFraction, toTime } from './life-arguments.ts';
import { LIFE_MODELS, mixtureParts } from './life-model.ts';
import { MIXTURE_SIZE } from './mixture-likelihood.ts';
import { findRoot } from './numeric/find-root.ts';
import { LOG_SCALE, waldEstimate, type Estimate, type Scale, type WorkingParameters } from './working-estimates.ts';

export interface MixtureParameters {
  /** Share of lives that are of the early kind. */
  readonly earlyShare: Estimate;
  readonly earlyShape: Estimate;
  readonly earlyScale: Estimate;
  readonly wearOutShape: Estimate;
  readonly wearOutScale: Estimate;
}

export interface MixturePredictions {
  /** Life by which a fraction has failed, limits formed on the log scale. */
  lifeAt(fraction: number): Estimate;
  /** Share surviving beyond `time`, limits formed on the log cumulative-hazard scale. */
  survivalAt(time: number): Estimate;
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

/** The parameters with their limits, and their slopes in the working ones, row-major 5 × 5. */
export function mixtureParameters(working: WorkingParameters, level: number) {
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

/** Life and survival of the mixture, by the delta method. */
export function mixturePredictions(working: WorkingParameters, level: number): MixturePredictions {
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
