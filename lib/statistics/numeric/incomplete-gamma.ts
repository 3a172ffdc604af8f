import gammaln from '@stdlib/math-base-special-gammaln';

/**
 * Incomplete gamma functions, ours because the library's (stdlib gammainc 0.3.1 and what rests on it: gamma and
 * chi-square cdf and quantile) are off by up to 3 % for shapes above 200 near the mean: rates of some hundred events.
 *
 * P by its power series below the mean, Q by its continued fraction above (Press et al., Numerical Recipes §6.2), each
 * in about √shape terms; their common factor after Loader 2000, which keeps its digits for large shapes. Outside
 * check: R's pgamma and qgamma to 1e-13 for shapes from 0.05 to 1e6.
 */
export function lowerGamma(shape: number, x: number): number {
  if (!(x > 0)) return 0;
  return x < shape + 1 ? series(shape, x) : 1 - continuedFraction(shape, x);
}

/** Q = 1 − P, without loss where it is tiny. */
export function upperGamma(shape: number, x: number): number {
  if (!(x > 0)) return 1;
  return x < shape + 1 ? 1 - series(shape, x) : continuedFraction(shape, x);
}

/** x at which P(shape, x) is `probability`: Halley's method from the Wilson–Hilferty value (Numerical Recipes §6.2.1). */
export function gammaQuantile(probability: number, shape: number): number {
  if (probability <= 0) return 0;
  if (probability >= 1) return Infinity;
  let x = firstGuess(probability, shape);
  for (let step = 0; step < 60; step++) {
    if (x === 0) return 0;
    // From whichever tail is the smaller, so that neither a tiny nor a nearly whole probability loses its digits.
    const excess = probability < 0.5 ? lowerGamma(shape, x) - probability : 1 - probability - upperGamma(shape, x);
    const newton = excess / ((factor(shape, x) * shape) / x);
    const move = newton / (1 - 0.5 * Math.min(1, newton * ((shape - 1) / x - 1)));
    const next = move < x ? x - move : x / 2;
    const moved = Math.abs(next - x);
    x = next;
    if (moved <= 1e-15 * x) break;
  }
  return x;
}

function firstGuess(probability: number, shape: number): number {
  const small = Math.exp((Math.log(probability) + gammaln(shape + 1)) / shape);
  if (shape < 1) return probability < 0.5 ? small : Math.max(small, -Math.log1p(-probability) * shape);
  // Hastings' normal quantile (Abramowitz & Stegun 26.2.22): a start needs no more.
  const tail = Math.sqrt(-2 * Math.log(Math.min(probability, 1 - probability)));
  const z = tail - (2.30753 + 0.27061 * tail) / (1 + 0.99229 * tail + 0.04481 * tail * tail);
  const signed = probability < 0.5 ? -z : z;
  const cube = 1 - 1 / (9 * shape) + signed / (3 * Math.sqrt(shape));
  return cube > 0.1 ? shape * cube ** 3 : small;
}

/** x^a e^(−x) / Γ(a + 1). */
function factor(a: number, x: number): number {
  if (a < 15) return Math.exp(a * Math.log(x) - x - gammaln(a + 1));
  const away = (x - a) / a;
  const square = 1 / (a * a);
  const stirling = (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square * (1 / 1680 - square / 1188)))) / a;
  return Math.exp(a * (Math.log1p(away) - away) - stirling) / Math.sqrt(2 * Math.PI * a);
}

function series(a: number, x: number): number {
  let [sum, term] = [1, 1];
  for (let n = 1; term > 1e-17 * sum; n++) sum += term *= x / (a + n);
  return Math.min(1, factor(a, x) * sum);
}

/** Lentz's method. */
function continuedFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < 1e7; n++) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    const change = d * c;
    h *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return factor(a, x) * a * h;
}
