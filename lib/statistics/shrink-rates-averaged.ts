import { gammaMixtureQuantiles, type GammaPart } from './numeric/gamma-mixture.ts';
import { marginal } from './shrink-rates-prior.ts';

export interface PosteriorColumns {
  readonly value: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/**
 * Posterior of each unit's rate averaged over priors, each weighed by how well it explains all the counts: uniform on
 * the coefficient of variation between units (from 0.02 to 3) and on the log mean. Unlike the empirical Bayes one it
 * does not take the fitted prior as known, which matters with few units and most where no spread at all is fitted.
 *
 * Source: Christiansen & Morris 1997, JASA 92:618; uniform on the spread as in Gelman 2006, Bayesian Analysis 1:515.
 */
export function averagedRates(events: Float64Array, exposure: Float64Array, tail: number): PosteriorColumns {
  const nodes = priorNodes(events, exposure);
  const columns = Array.from(events, (count, unit) => {
    const posterior = nodes.map(({ shape, rate, weight }) => ({
      shape: shape + count,
      rate: rate + (exposure[unit] as number),
      weight,
    }));
    const mean = posterior.reduce((sum, { shape, rate, weight }) => sum + (weight * shape) / rate, 0);
    return [mean, ...gammaMixtureQuantiles(posterior, [tail, 1 - tail])] as [number, number, number];
  });
  const column = (index: 0 | 1 | 2) => Float64Array.from(columns, (unit) => unit[index]);
  return { value: column(0), lower: column(1), upper: column(2) };
}

/** Rates of units are seldom more unlike than this; beyond it the counts of a unit stand nearly alone anyway. */
const WIDEST = 3;
/** A coefficient of variation under this is as none. */
const LEAST = 0.02;
const SPREADS = 18;
const MEANS = 7;

/** Grid of priors: midpoints in the coefficient of variation, and for each the log mean over ±3.5 of its own errors. */
function priorNodes(events: Float64Array, exposure: Float64Array): GammaPart[] {
  const total = events.reduce((sum, count) => sum + count, 0);
  const pooled = Math.log(total / exposure.reduce((sum, value) => sum + value, 0));
  const found: { shape: number; logMean: number; logWeight: number }[] = [];
  for (let step = 0; step < SPREADS; step++) {
    // Squared midpoints: finer near no spread, where the posterior changes fastest; the Jacobian is in the weight.
    const middle = (step + 0.5) / SPREADS;
    const shape = (LEAST + (WIDEST - LEAST) * middle ** 2) ** -2;
    const centre = likeliestMean(events, exposure, Math.log(shape), pooled);
    const width = 7 / Math.sqrt(-centre.bend) / MEANS;
    for (let at = 0; at < MEANS; at++) {
      const logMean = centre.logMean + width * (at - (MEANS - 1) / 2);
      const { value } = marginal(events, exposure, Float64Array.of(Math.log(shape), logMean));
      found.push({ shape, logMean, logWeight: value + Math.log(width * middle) });
    }
  }
  const most = found.reduce((best, { logWeight }) => Math.max(best, logWeight), -Infinity);
  const nodes = found
    .map(({ shape, logMean, logWeight }) => ({
      shape,
      rate: shape / Math.exp(logMean),
      weight: Math.exp(logWeight - most),
    }))
    .filter(({ weight }) => weight > 1e-4);
  const sum = nodes.reduce((all, { weight }) => all + weight, 0);
  return nodes.map((node) => ({ ...node, weight: node.weight / sum }));
}

/** Newton in the log mean at a fixed shape: the log-likelihood is concave in it. */
function likeliestMean(events: Float64Array, exposure: Float64Array, logShape: number, from: number) {
  let [logMean, bend] = [from, -1];
  for (let step = 0; step < 30; step++) {
    const at = marginal(events, exposure, Float64Array.of(logShape, logMean));
    bend = at.hessian[3] as number;
    const move = Math.max(-1, Math.min(1, -(at.gradient[1] as number) / bend));
    logMean += move;
    if (Math.abs(move) < 1e-6) break;
  }
  return { logMean, bend };
}
