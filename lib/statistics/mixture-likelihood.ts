import { endSums, type RowSums } from './log-life-block.ts';
import { extremeValueTerms } from './log-life-terms.ts';
import type { LifeRows } from './life-rows.ts';
import type { Evaluation } from './numeric/maximise.ts';
import { LEAST_CLUSTERS } from './regression-result.ts';

/** θ = (logit of the early share, γ and log α of the early part, γ and log α of the wear-out part); z = α log t − γ. */
export const MIXTURE_SIZE = 5;

/** One part's log term at a row, with its gradient and curvature in (γ, log α). */
interface Part {
  value: number;
  g0: number;
  g1: number;
  h00: number;
  h01: number;
  h11: number;
}

const newPart = (): Part => ({ value: 0, g0: 0, g1: 0, h00: 0, h01: 0, h11: 0 });

/** Room that one pass over the rows uses again and again. */
class MixtureTerms {
  readonly early = newPart();
  readonly late = newPart();
  /** log of the mixed term, its gradient, and its curvature (row-major 5 × 5). */
  value = 0;
  /** Posterior share of the early part. */
  early1 = 0;
  readonly gradient = new Float64Array(MIXTURE_SIZE);
  readonly curvature = new Float64Array(MIXTURE_SIZE * MIXTURE_SIZE);
  private readonly out = new Float64Array(6);
  private readonly sums: RowSums = { value: 0, first: 0, firstY: 0, second: 0, secondY: 0, secondYY: 0 };

  constructor(private readonly rows: LifeRows) {}

  /** How a row ended, under one part. */
  end(part: Part, row: number, gamma: number, alpha: number): void {
    const { sums } = this;
    endSums(this.rows, extremeValueTerms, row, alpha, gamma, this.out, sums);
    part.value = sums.value;
    part.g0 = -sums.first;
    part.g1 = alpha * sums.firstY;
    part.h00 = sums.second;
    part.h01 = -alpha * sums.secondY;
    part.h11 = alpha * alpha * sums.secondYY + part.g1;
  }

  /** Survival to log time y under one part. */
  survival(part: Part, y: number, gamma: number, alpha: number): void {
    const hazard = Math.exp(alpha * y - gamma);
    part.value = -hazard;
    part.g0 = hazard;
    part.g1 = -hazard * alpha * y;
    part.h00 = -hazard;
    part.h01 = hazard * alpha * y;
    part.h11 = -hazard * alpha * y * (1 + alpha * y);
  }

  /** log(share e^early + (1 − share) e^late) and its derivatives in θ. */
  mix(share: number, logShare: number, logRest: number): void {
    const { early, late, gradient, curvature } = this;
    const [a, b] = [logShare + early.value, logRest + late.value];
    const top = Math.max(a, b);
    this.value = top === -Infinity ? top : top + Math.log(Math.exp(a - top) + Math.exp(b - top));
    const r = top === -Infinity ? share : Math.exp(a - this.value);
    const q = 1 - r;
    // Slopes of a part without any posterior may have overflowed; zero times infinity must not come of it.
    if (r === 0) Object.assign(early, newPart());
    if (q === 0) Object.assign(late, newPart());
    this.early1 = r;
    gradient[0] = r - share;
    gradient[1] = r * early.g0;
    gradient[2] = r * early.g1;
    gradient[3] = q * late.g0;
    gradient[4] = q * late.g1;
    // Σ r (∇²b + ∇b ∇bᵀ) − g gᵀ; across the two parts only −r q of the products is left.
    const spread = r * q;
    curvature[0] = spread - share * (1 - share);
    curvature[1] = spread * early.g0;
    curvature[2] = spread * early.g1;
    curvature[3] = -spread * late.g0;
    curvature[4] = -spread * late.g1;
    curvature[6] = r * early.h00 + spread * early.g0 * early.g0;
    curvature[7] = r * early.h01 + spread * early.g0 * early.g1;
    curvature[8] = -spread * early.g0 * late.g0;
    curvature[9] = -spread * early.g0 * late.g1;
    curvature[12] = r * early.h11 + spread * early.g1 * early.g1;
    curvature[13] = -spread * early.g1 * late.g0;
    curvature[14] = -spread * early.g1 * late.g1;
    curvature[18] = q * late.h00 + spread * late.g0 * late.g0;
    curvature[19] = q * late.h01 + spread * late.g0 * late.g1;
    curvature[24] = q * late.h11 + spread * late.g1 * late.g1;
  }
}

/** Log-likelihood of a two-part Weibull mixture over the rows, density that of log t (see logLifeLikelihood). */
export function mixtureLikelihood(rows: LifeRows): (theta: Float64Array) => Evaluation {
  const terms = new MixtureTerms(rows);
  return (theta) => {
    const gradient = new Float64Array(MIXTURE_SIZE);
    const hessian = new Float64Array(MIXTURE_SIZE * MIXTURE_SIZE);
    let value = 0;
    forEachTerm(rows, terms, theta, (row, sign) => {
      const w = sign * (rows.weight ? (rows.weight[row] as number) : 1);
      value += w * terms.value;
      for (let k = 0; k < gradient.length; k++)
        gradient[k] = (gradient[k] as number) + w * (terms.gradient[k] as number);
      for (let k = 0; k < hessian.length; k++) hessian[k] = (hessian[k] as number) + w * (terms.curvature[k] as number);
    });
    for (let row = 0; row < MIXTURE_SIZE; row++)
      for (let column = 0; column < row; column++)
        hessian[row * MIXTURE_SIZE + column] = hessian[column * MIXTURE_SIZE + row] as number;
    return { value, gradient, hessian };
  };
}

/** Σ over clusters of products of their summed scores, row-major 5 × 5; null under two clusters. */
export function mixtureMeat(rows: LifeRows, theta: Float64Array): Float64Array | null {
  if (!rows.cluster || rows.cluster.count < LEAST_CLUSTERS) return null;
  const { codes, count } = rows.cluster;
  const terms = new MixtureTerms(rows);
  const scores = new Float64Array(count * MIXTURE_SIZE);
  forEachTerm(rows, terms, theta, (row, sign) => {
    const w = sign * (rows.weight ? (rows.weight[row] as number) : 1);
    const at = (codes[row] as number) * MIXTURE_SIZE;
    for (let k = 0; k < MIXTURE_SIZE; k++)
      scores[at + k] = (scores[at + k] as number) + w * (terms.gradient[k] as number);
  });
  const meat = new Float64Array(MIXTURE_SIZE * MIXTURE_SIZE);
  for (let at = 0; at < scores.length; at += MIXTURE_SIZE)
    for (let k = 0; k < meat.length; k++)
      meat[k] =
        (meat[k] as number) +
        (scores[at + Math.floor(k / MIXTURE_SIZE)] as number) * (scores[at + (k % MIXTURE_SIZE)] as number);
  return meat;
}

/** Posterior early share of how each row ended, and of it being alive at its entry (the prior where it entered at zero). */
export function earlyShares(rows: LifeRows, theta: Float64Array): { end: Float64Array; entry: Float64Array | null } {
  const terms = new MixtureTerms(rows);
  const end = new Float64Array(rows.size);
  const entry = rows.logEntry && new Float64Array(rows.size).fill(1 / (1 + Math.exp(-(theta[0] as number))));
  forEachTerm(rows, terms, theta, (row, sign) => {
    const shares = sign > 0 ? end : (entry as Float64Array);
    shares[row] = terms.early1;
  });
  return { end, entry };
}

/** Fills `terms` for the end of each row (sign 1) and for its survival to a late entry (sign −1). */
function forEachTerm(
  rows: LifeRows,
  terms: MixtureTerms,
  theta: Float64Array,
  visit: (row: number, sign: number) => void,
): void {
  const [logit, gamma1, logAlpha1, gamma2, logAlpha2] = theta as unknown as [number, number, number, number, number];
  const [alpha1, alpha2] = [Math.exp(logAlpha1), Math.exp(logAlpha2)];
  const share = 1 / (1 + Math.exp(-logit));
  const [logShare, logRest] = [-Math.log1p(Math.exp(-logit)), -Math.log1p(Math.exp(logit))];
  for (let row = 0; row < rows.size; row++) {
    terms.end(terms.early, row, gamma1, alpha1);
    terms.end(terms.late, row, gamma2, alpha2);
    terms.mix(share, logShare, logRest);
    visit(row, 1);
    const y0 = rows.logEntry === null ? -Infinity : (rows.logEntry[row] as number);
    if (y0 === -Infinity) continue;
    terms.survival(terms.early, y0, gamma1, alpha1);
    terms.survival(terms.late, y0, gamma2, alpha2);
    terms.mix(share, logShare, logRest);
    visit(row, -1);
  }
}
