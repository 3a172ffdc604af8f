import type { RiskCounts } from './risk-counts.ts';
import type { RiskOrder } from './risk-order.ts';

/** Events of one cause at each distinct time of a part, weighted where weights were given. */
export function causeCounts(
  order: RiskOrder,
  part: number,
  event: Uint8Array,
  weight: Float64Array | null,
  cause: number,
  { time, atRisk, events }: RiskCounts,
): Float64Array {
  const counts = new Float64Array(time.length);
  const end = order.start[part + 1] as number;
  for (let k = order.start[part] as number, place = 0; k < end; k++) {
    if ((order.time[k] as number) > (time[place] as number)) place++;
    const row = order.rows[k] as number;
    if (event[row] === cause)
      counts[place] = (counts[place] as number) + (weight === null ? 1 : (weight[row] as number));
  }
  // A cause that takes all at risk must take exactly all, or survival would not reach 0.
  for (let place = 0; place < counts.length; place++)
    if (events[place] === atRisk[place] && (counts[place] as number) > (1 - 1e-12) * (events[place] as number))
      counts[place] = events[place] as number;
  return counts;
}

export interface Incidence {
  readonly incidence: Float64Array;
  readonly standardError: Float64Array;
  readonly survival: Float64Array;
}

/**
 * F and S step by step, F += S·d_k/n and S ·= 1 − d/n, with the delta-method covariance of the two carried
 * along (Andersen et al. 1993 (4.4.17)–(4.4.19) for two states): no sums of squares are subtracted, so
 * nothing is lost when S has nearly run out.
 */
export function aalenJohansen(
  { atRisk, events }: RiskCounts,
  ofCause: Float64Array,
  kind: 'greenwood' | 'aalen',
): Incidence {
  const places = atRisk.length;
  const incidence = new Float64Array(places);
  const standardError = new Float64Array(places);
  const survival = new Float64Array(places);
  let [f, s] = [0, 1];
  let [varF, varS, covariance] = [0, 0, 0];
  for (let place = 0; place < places; place++) {
    const d = events[place] as number;
    if (d > 0 && s > 0) {
      const n = atRisk[place] as number;
      const dk = ofCause[place] as number;
      const q = dk / n;
      const stay = (n - d) / n;
      // Variances of d_k/n and of d/n, and their covariance.
      const vQ = kind === 'greenwood' ? (q * (1 - q)) / n : hypergeometric(dk, n);
      const vP = kind === 'greenwood' ? ((1 - stay) * stay) / n : vQ + hypergeometric(d - dk, n);
      const vPQ = kind === 'greenwood' ? (q * stay) / n : vQ;
      varF += 2 * q * covariance + q * q * varS + s * s * vQ;
      covariance = stay * (covariance + q * varS) - s * s * vPQ;
      varS = stay * stay * varS + s * s * vP;
      f += s * q;
      s *= stay;
    }
    incidence[place] = f;
    survival[place] = s;
    standardError[place] = Math.sqrt(Math.max(0, varF));
  }
  return { incidence, standardError, survival };
}

/** Variance of d/n, with the correction for ties that vanishes at a single event. */
const hypergeometric = (d: number, n: number): number =>
  d <= 0 ? 0 : n > 1 && d > 1 ? (d * (n - d)) / (n * n * (n - 1)) : d / (n * n);
