import { EXACT, INTERVAL, RIGHT, type LifeRows } from './life-rows.ts';
import { extremeValueTerms, type LogLifeTerms } from './log-life-terms.ts';

/** Per-row derivatives over one block; the row's linear predictor is η, its log life z = α log t − η. */
export interface BlockSlopes {
  readonly eta: Float64Array;
  readonly slope: Float64Array;
  readonly curve: Float64Array;
  readonly cross: Float64Array;
  readonly alphaSlope: Float64Array;
  value: number;
  alphaCurve: number;
}

export const BLOCK = 1024;

export const newBlockSlopes = (): BlockSlopes => {
  const [eta, slope, curve] = [new Float64Array(BLOCK), new Float64Array(BLOCK), new Float64Array(BLOCK)];
  return {
    eta,
    slope,
    curve,
    cross: new Float64Array(BLOCK),
    alphaSlope: new Float64Array(BLOCK),
    value: 0,
    alphaCurve: 0,
  };
};

/** Contribution of one row before its weight: value, and derivatives in (−η, α). */
export interface RowSums {
  value: number;
  first: number;
  firstY: number;
  second: number;
  secondY: number;
  secondYY: number;
}

/**
 * Value and derivatives of the log-likelihood of rows [from, to) given their η, in (η, α).
 * This form (Burridge 1981, JRSS B 43:41) makes the likelihood concave wherever no row enters late,
 * so that a stationary point is the maximum.
 */
export function blockSlopes(
  rows: LifeRows,
  terms: LogLifeTerms,
  from: number,
  to: number,
  alpha: number,
  block: BlockSlopes,
): void {
  const { kind, log, weight } = rows;
  const { eta, slope, curve, cross, alphaSlope } = block;
  const out = new Float64Array(6);
  const sums: RowSums = { value: 0, first: 0, firstY: 0, second: 0, secondY: 0, secondYY: 0 };
  // Exact and running Weibull lives that entered at zero are most of most data: they get a road of their own.
  const quick = terms === extremeValueTerms && rows.logEntry === null;
  const logAlpha = Math.log(alpha);
  const perAlpha = 1 / alpha;
  let value = 0;
  let alphaCurve = 0;
  for (let row = from; row < to; row++) {
    const k = row - from;
    const type = kind[row] as number;
    const w = weight === null ? 1 : (weight[row] as number);
    if (quick && type <= RIGHT) {
      const y = log[row] as number;
      const z = alpha * y - (eta[k] as number);
      const hazard = w * Math.exp(z);
      const failed = type === EXACT ? w : 0;
      value += failed * (z + logAlpha) - hazard;
      slope[k] = hazard - failed;
      curve[k] = -hazard;
      cross[k] = hazard * y;
      alphaSlope[k] = failed * (y + perAlpha) - hazard * y;
      alphaCurve -= hazard * y * y + failed * perAlpha * perAlpha;
      continue;
    }
    rowSums(rows, terms, row, alpha, eta[k] as number, out, sums);
    value += w * sums.value;
    slope[k] = -w * sums.first;
    curve[k] = w * sums.second;
    cross[k] = -w * sums.secondY;
    alphaSlope[k] = w * sums.firstY;
    alphaCurve += w * sums.secondYY;
  }
  block.value = value;
  block.alphaCurve = alphaCurve;
}

function rowSums(
  rows: LifeRows,
  terms: LogLifeTerms,
  row: number,
  alpha: number,
  eta: number,
  out: Float64Array,
  sums: RowSums,
): void {
  endSums(rows, terms, row, alpha, eta, out, sums);
  const y0 = rows.logEntry === null ? -Infinity : (rows.logEntry[row] as number);
  if (y0 === -Infinity) return;
  terms.right(alpha * y0 - eta, out);
  const [first, second] = [out[1] as number, out[2] as number];
  sums.value -= out[0] as number;
  sums.first -= first;
  sums.second -= second;
  sums.firstY -= first * y0;
  sums.secondY -= second * y0;
  sums.secondYY -= second * y0 * y0;
}

/** The part of a row that tells how its life ended, its entry left aside. */
export function endSums(
  rows: LifeRows,
  terms: LogLifeTerms,
  row: number,
  alpha: number,
  eta: number,
  out: Float64Array,
  sums: RowSums,
): void {
  const type = rows.kind[row];
  const y = rows.log[row] as number;
  const z = alpha * y - eta;
  if (type === INTERVAL) {
    const y1 = (rows.logLower as Float64Array)[row] as number;
    const width = y - y1;
    terms.interval(z, alpha * width, out);
    const [l2, l2Sum, l22] = [out[2] as number, out[4] as number, out[5] as number];
    sums.first = out[1] as number;
    sums.second = out[3] as number;
    sums.firstY = sums.first * y1 + l2 * width;
    sums.secondY = sums.second * y1 + l2Sum * width;
    sums.secondYY = sums.second * y1 * y1 + 2 * l2Sum * y1 * width + l22 * width * width;
  } else {
    if (type === EXACT) terms.exact(z, out);
    else if (type === RIGHT) terms.right(z, out);
    else terms.left(z, out);
    sums.first = out[1] as number;
    sums.second = out[2] as number;
    sums.firstY = sums.first * y;
    sums.secondY = sums.second * y;
    sums.secondYY = sums.secondY * y;
  }
  sums.value = out[0] as number;
  if (type === EXACT) {
    sums.value += Math.log(alpha);
    sums.firstY += 1 / alpha;
    sums.secondYY -= 1 / (alpha * alpha);
  }
}
