import gammaln from '@stdlib/math-base-special-gammaln';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { lowerGamma } from './numeric/incomplete-gamma.ts';
import { logNormalSurvival } from './numeric/normal.ts';
import type { LogLifeName } from './log-life-distribution.ts';

export type LifeName = LogLifeName | 'weibull-mixture';

/**
 * A life distribution as a function of its working parameters: (location, log spread) of log life;
 * for the mixture (logit of the early share, then both of the early and both of the wear-out part).
 * What is planned on a fit needs it again at other values, to carry the uncertainty through.
 */
export interface LifeModel {
  logSurvival(time: number, working: ArrayLike<number>): number;
  /** ∫₀^age S(t) dt: the mean of a life cut short at `age`; Infinity gives the mean life. */
  meanUpTo(age: number, working: ArrayLike<number>): number;
}

export const WEIBULL_MODEL: LifeModel = {
  logSurvival: (time, working) => -Math.exp((Math.log(time) - at(working, 0)) / spreadOf(working)),
  meanUpTo(age, working) {
    const spread = spreadOf(working);
    // θ Γ(1 + σ) P(σ, (age / θ)^(1/σ)): substitute u = (t / θ)^(1/σ).
    const whole = Math.exp(at(working, 0)) * Math.exp(gammaln(1 + spread));
    return age === Infinity ? whole : whole * lowerGamma(spread, Math.exp((Math.log(age) - at(working, 0)) / spread));
  },
};

const LOGNORMAL_MODEL: LifeModel = {
  logSurvival: (time, working) => logNormalSurvival((Math.log(time) - at(working, 0)) / spreadOf(working)),
  meanUpTo(age, working) {
    const spread = spreadOf(working);
    const whole = Math.exp(at(working, 0) + (spread * spread) / 2);
    if (age === Infinity) return whole;
    const z = (Math.log(age) - at(working, 0)) / spread;
    return whole * normalCdf(z - spread, 0, 1) + age * normalCdf(-z, 0, 1);
  },
};

/** Share of the early part, and the working parameters of both. */
export function mixtureParts(working: ArrayLike<number>) {
  const share = 1 / (1 + Math.exp(-at(working, 0)));
  return { share, early: [at(working, 1), at(working, 2)], wearOut: [at(working, 3), at(working, 4)] };
}

const MIXTURE_MODEL: LifeModel = {
  logSurvival(time, working) {
    const { share, early, wearOut } = mixtureParts(working);
    const [a, b] = [WEIBULL_MODEL.logSurvival(time, early), WEIBULL_MODEL.logSurvival(time, wearOut)];
    const top = Math.max(a, b);
    return top === -Infinity ? top : top + Math.log(share * Math.exp(a - top) + (1 - share) * Math.exp(b - top));
  },
  meanUpTo(age, working) {
    const { share, early, wearOut } = mixtureParts(working);
    return share * WEIBULL_MODEL.meanUpTo(age, early) + (1 - share) * WEIBULL_MODEL.meanUpTo(age, wearOut);
  },
};

export const LIFE_MODELS: Readonly<Record<LifeName, LifeModel>> = {
  weibull: WEIBULL_MODEL,
  exponential: WEIBULL_MODEL,
  lognormal: LOGNORMAL_MODEL,
  'weibull-mixture': MIXTURE_MODEL,
};

const at = (working: ArrayLike<number>, k: number): number => working[k] as number;
const spreadOf = (working: ArrayLike<number>): number => (working.length > 1 ? Math.exp(at(working, 1)) : 1);
