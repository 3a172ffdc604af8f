import erfcx from '@stdlib/math-base-special-erfcx';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';

/** log √(2π). */
export const LOG_SQRT_TWO_PI = 0.9189385332046727;
const SQRT_TWO_OVER_PI = 0.7978845608028654;

/**
 * Standard normal quantile. The library's (stdlib normal-quantile 0.3.1) loses digits below about
 * 1e-5 (8e-8 of the probability at 1e-10): Newton steps on the log of the tail give them back.
 */
export function standardNormalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1) || probability === 0.5) return normalQuantile(probability, 0, 1);
  const [tail, sign] = probability < 0.5 ? [probability, -1] : [1 - probability, 1];
  // Beyond the library's reach, the leading term of the tail.
  let z = Math.abs(normalQuantile(tail, 0, 1));
  if (!(z < 37)) z = Math.sqrt(-2 * Math.log(tail));
  for (let step = 0; step < 20; step++) {
    const move = (logNormalSurvival(z) - Math.log(tail)) / normalHazard(z);
    z += move;
    if (Math.abs(move) <= 1e-15 * z) break;
  }
  return sign * z;
}

/** log density of the standard normal. */
export const logNormalDensity = (z: number): number => -0.5 * z * z - LOG_SQRT_TWO_PI;

/** log P(Z > z), exact far into both tails: erfcx carries the upper tail, log1p the lower. */
export function logNormalSurvival(z: number): number {
  if (z === Infinity) return -Infinity;
  if (z > -1) return -0.5 * z * z + Math.log(0.5 * erfcx(z * Math.SQRT1_2));
  return Math.log1p(-0.5 * erfcx(-z * Math.SQRT1_2) * Math.exp(-0.5 * z * z));
}

/** φ(z) / P(Z > z), the hazard of the standard normal (inverse Mills ratio). */
export function normalHazard(z: number): number {
  if (z < -30) return 0;
  return z === Infinity ? Infinity : SQRT_TWO_OVER_PI / erfcx(z * Math.SQRT1_2);
}

// Gauss–Legendre, 10 points on (−1, 1) (Abramowitz & Stegun table 25.4).
const NODES = [0.1488743389816312, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717];
const WEIGHTS = [0.2955242247147529, 0.2692667193099963, 0.219086362515982, 0.1494513491505806, 0.0666713443086881];

/**
 * log P(from < Z ≤ from + width). The interval is first moved below zero, where the tails keep their
 * digits; a narrow one is integrated, since the difference of two tails would lose them.
 */
export function logNormalInterval(from: number, width: number): number {
  if (from > 0) return logNormalInterval(-from - width, width);
  const middle = from + width / 2;
  if (width < 1 && width * Math.abs(middle) < 4) {
    let sum = 0;
    for (let k = 0; k < NODES.length; k++) {
      const step = (NODES[k] as number) * (width / 2);
      const even = 2 * Math.cosh(middle * step) * Math.exp(-0.5 * step * step);
      sum += (WEIGHTS[k] as number) * even;
    }
    return logNormalDensity(middle) + Math.log((sum * width) / 2);
  }
  const upper = logNormalSurvival(-from - width);
  return upper + Math.log(-Math.expm1(logNormalSurvival(-from) - upper));
}
