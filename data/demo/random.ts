/**
 * Seeded random numbers for the demo fleet: sfc32 (C. Doty-Humphrey, PractRand, public domain), one
 * independent stream per key so that unit 17 is the same whether 20 or 200,000 units are made.
 */
export class Random {
  private a: number;
  private b: number;
  private c: number;
  private counter = 1;
  private spareNormal: number | undefined;

  constructor(seed: number, key: number) {
    this.a = mix(seed >>> 0);
    this.b = mix((key ^ 0x9e3779b9) >>> 0);
    this.c = mix((this.a + Math.imul(this.b, 31)) >>> 0);
    for (let warmUp = 0; warmUp < 15; warmUp++) this.uniform();
  }

  /** Uniform on the open interval (0, 1), so that its logarithm is always finite. */
  uniform(): number {
    const sum = (((this.a + this.b) | 0) + this.counter) | 0;
    this.counter = (this.counter + 1) | 0;
    this.a = this.b ^ (this.b >>> 9);
    this.b = (this.c + (this.c << 3)) | 0;
    this.c = (((this.c << 21) | (this.c >>> 11)) + sum) | 0;
    return ((sum >>> 0) + 0.5) / 4294967296;
  }

  chance(probability: number): boolean {
    return this.uniform() < probability;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }

  /** Whole number from 0 to `count` − 1. */
  below(count: number): number {
    return Math.floor(this.uniform() * count);
  }

  exponential(mean = 1): number {
    return -Math.log(this.uniform()) * mean;
  }

  /** Standard normal by the polar method (Marsaglia & Bray 1964). */
  normal(mean = 0, deviation = 1): number {
    let standard = this.spareNormal;
    this.spareNormal = undefined;
    while (standard === undefined) {
      const x = 2 * this.uniform() - 1;
      const y = 2 * this.uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      standard = x * factor;
      this.spareNormal = y * factor;
    }
    return mean + deviation * standard;
  }

  weibull(shape: number, scale: number): number {
    return scale * Math.pow(this.exponential(), 1 / shape);
  }

  /** Gamma with mean 1 and the given variance: a frailty (Marsaglia & Tsang 2000, shape at least 1). */
  frailty(variance: number): number {
    const shape = 1 / variance;
    if (shape < 1) throw new RangeError(`frailty variance must be at most 1: ${variance}`);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = this.normal();
      const root = 1 + c * x;
      if (root <= 0) continue;
      const cube = root * root * root;
      if (Math.log(this.uniform()) < 0.5 * x * x + d - d * cube + d * Math.log(cube)) return (d * cube) / shape;
    }
  }

  pick<T>(choices: readonly T[]): T {
    return choices[this.below(choices.length)] as T;
  }

  /** Index drawn with the given shares; what is missing to a total of 1 goes to the last. */
  weighted(shares: readonly number[]): number {
    let left = this.uniform();
    for (let index = 0; index < shares.length - 1; index++) {
      left -= shares[index] as number;
      if (left < 0) return index;
    }
    return shares.length - 1;
  }
}

/** Final mixing step of MurmurHash3 (A. Appleby, public domain): neighbouring keys give unlike states. */
function mix(value: number): number {
  let hash = value;
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}
