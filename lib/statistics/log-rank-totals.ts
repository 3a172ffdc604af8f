import type { PackedCodes } from './group-risk.ts';
import { addWeightedProducts } from './numeric/weighted-products.ts';

/** Sums over the distinct event times of all strata. */
export interface LogRankSums {
  /** Weight of the rows of each group. */
  readonly lives: Float64Array;
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  /** Row-major, groups × groups. */
  readonly variance: Float64Array;
}

/** Event times whose products are added up together. */
const BATCH = 512;

/**
 * The hypergeometric covariance at one event time is spread · (diag(p) − p pᵀ), p the groups' shares of those at
 * risk. Only the products of different groups are added up: each row of it sums to zero, so the diagonal is what they
 * leave, and nothing is subtracted that could cancel where one group holds nearly all.
 */
export class LogRankTotals {
  /** While an instance lives the machine knows the class's layout, and sweeps compiled for it need not be compiled again. */
  static readonly layout = new LogRankTotals(0);
  readonly lives: Float64Array;
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  private readonly shares: Float64Array;
  private readonly spreads = new Float64Array(BATCH);
  private readonly products: Float64Array;
  private waiting = 0;

  constructor(readonly groups: number) {
    this.lives = new Float64Array(groups);
    this.observed = new Float64Array(groups);
    this.expected = new Float64Array(groups);
    this.shares = new Float64Array(BATCH * groups);
    this.products = new Float64Array(groups * groups);
  }

  /** A stratum's rows by packed code, each counting once; its events too where all weigh alike. */
  addTally(tally: Int32Array, events: boolean): void {
    const { lives, observed } = this;
    for (let group = 0; group < this.groups; group++) {
      const [running, failed] = [tally[2 * group] as number, tally[2 * group + 1] as number];
      lives[group] = (lives[group] as number) + running + failed;
      if (events) observed[group] = (observed[group] as number) + failed;
    }
  }

  /** The events among the packed codes from `first` to before `end`. */
  addObserved(codes: PackedCodes, first: number, end: number, factor: number): void {
    const { observed } = this;
    for (let k = first; k < end; k++) {
      const code = codes[k] as number;
      observed[code >>> 1] = (observed[code >>> 1] as number) + factor * (code & 1);
    }
  }

  /** `d` events among `n` at risk, under the test's weight at this time. */
  addEventTime(atRisk: Float64Array, n: number, d: number, factor: number): void {
    const { expected, shares, groups } = this;
    const base = this.waiting * groups;
    const weight = factor * d;
    for (let group = 0; group < groups; group++) {
      const share = (atRisk[group] as number) / n;
      shares[base + group] = share;
      expected[group] = (expected[group] as number) + weight * share;
    }
    this.spreads[this.waiting++] = n > 1 && n > d ? (factor * weight * (n - d)) / (n - 1) : 0;
    if (this.waiting === BATCH) this.addProducts();
  }

  private addProducts(): void {
    addWeightedProducts(this.products, this.shares, this.groups, this.waiting, this.spreads, 1);
    this.waiting = 0;
  }

  sums(): LogRankSums {
    this.addProducts();
    const { lives, observed, expected, products, groups } = this;
    const variance = new Float64Array(groups * groups);
    const add = (cell: number, product: number) => (variance[cell] = (variance[cell] as number) + product);
    for (let k = 0; k < groups; k++)
      for (let l = 0; l < k; l++) {
        const product = products[k * groups + l] as number;
        variance[k * groups + l] = variance[l * groups + k] = -product;
        add(k * groups + k, product);
        add(l * groups + l, product);
      }
    return { lives, observed, expected, variance };
  }
}
