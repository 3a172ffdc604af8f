import { logNormalDensity, logNormalInterval, logNormalSurvival, normalHazard } from './numeric/normal.ts';

/**
 * Log-likelihood terms of a standardised log life z = α log t − η, with derivatives in z.
 * `out` receives [value, first, second] for one-ended terms. For an interval (z1, z2] it receives
 * [value, l1 + l2, l2, l11 + 2 l12 + l22, l12 + l22, l22]: sums formed so that the large parts of
 * a narrow interval cancel on paper and not in the machine.
 */
export interface LogLifeTerms {
  exact(z: number, out: Float64Array): void;
  right(z: number, out: Float64Array): void;
  left(z: number, out: Float64Array): void;
  /** The interval (to − width, to]; its width is given so that a narrow one keeps its digits. */
  interval(to: number, width: number, out: Float64Array): void;
}

/** Smallest extreme value: Weibull lives, S = exp(−e^z) (Meeker & Escobar §4.6–4.8). */
export const extremeValueTerms: LogLifeTerms = {
  exact(z, out) {
    const hazard = Math.exp(z);
    out[0] = z - hazard;
    out[1] = 1 - hazard;
    out[2] = -hazard;
  },
  right(z, out) {
    out[0] = out[1] = out[2] = -Math.exp(z);
  },
  left(z, out) {
    const hazard = Math.exp(z);
    // For a hazard too small to leave 1, log(1 − e^−H) is log H = z.
    out[0] = hazard < 1e-300 ? z : Math.log(-Math.expm1(-hazard));
    const slope = hazard > 700 ? 0 : hazard < 1e-300 ? 1 : hazard / Math.expm1(hazard);
    out[1] = slope;
    out[2] = hazard < 1e-8 ? (-slope * hazard) / 2 : slope * (1 + hazard / Math.expm1(-hazard));
    if (slope === 0) out[2] = 0;
  },
  interval(to, width, out) {
    const from = to - width;
    const start = Math.exp(from);
    const end = Math.exp(to);
    const gap = start * Math.expm1(width);
    if (gap > 700) {
      out[0] = out[1] = out[3] = -start;
      out[2] = out[4] = out[5] = 0;
      return;
    }
    if (gap < 1e-290) {
      // Both hazards all but vanish: the probability is their difference, e^from (e^(to−from) − 1).
      const ratio = -1 / Math.expm1(-width);
      out[0] = from + Math.log(Math.expm1(width));
      out[1] = 1;
      out[2] = ratio;
      out[3] = out[4] = 0;
      out[5] = ratio * (1 - ratio);
      return;
    }
    const odds = 1 / Math.expm1(gap);
    const share = gap * (1 + odds);
    const endOdds = end * odds;
    out[0] = Math.log(-Math.expm1(-gap)) - start;
    out[1] = gap * odds - start;
    out[2] = endOdds;
    out[3] = gap * odds * (1 - share) - start;
    out[4] = endOdds * (1 - share);
    out[5] = endOdds * (1 - end - endOdds);
  },
};

/** Normal: lognormal lives. */
export const normalTerms: LogLifeTerms = {
  exact(z, out) {
    out[0] = logNormalDensity(z);
    out[1] = -z;
    out[2] = -1;
  },
  right(z, out) {
    const hazard = normalHazard(z);
    out[0] = logNormalSurvival(z);
    out[1] = -hazard;
    out[2] = -hazard * (hazard - z);
  },
  left(z, out) {
    const hazard = normalHazard(-z);
    out[0] = logNormalSurvival(-z);
    out[1] = hazard;
    out[2] = -hazard * (hazard + z);
  },
  interval(to, width, out) {
    const from = to - width;
    const value = logNormalInterval(from, width);
    const first = Math.exp(logNormalDensity(from) - value);
    const second = Math.exp(logNormalDensity(to) - value);
    const exponent = -width * (from + width / 2);
    const rise = exponent < 350 ? first * Math.expm1(exponent) : second - first;
    out[0] = value;
    out[1] = rise;
    out[2] = second;
    out[3] = -from * rise - width * second - rise * rise;
    out[4] = -second * (rise + to);
    out[5] = -second * (to + second);
  },
};
