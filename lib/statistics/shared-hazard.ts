import { LIFE_MODELS } from './life-model.ts';
import type { Random } from './numeric/random.ts';
import type { FittedLife } from './parameter-draws.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCodes, toNumbers, type CategoryColumn, type NumberColumn } from './survival-data.ts';

/**
 * Failures expected of each life while it was watched, H(exit) − H(entry), under a fit: their sum over
 * the lives fitted is the number of failures seen, nearly.
 *
 * @throws StatisticsError on bad columns, or exit before entry.
 * Source: Therneau & Grambsch (2000) §4.2. Outside check: Weibull in closed form.
 */
export function fittedHazard(
  fit: FittedLife,
  lives: { readonly entry: NumberColumn; readonly exit: NumberColumn },
): Float64Array {
  const rows = lives.exit.length;
  const [entry, exit] = [toNumbers('entry', lives.entry, rows), toNumbers('exit', lives.exit, rows)];
  const model = LIFE_MODELS[fit.distribution];
  const hazard = (age: number) => (age > 0 ? -model.logSurvival(age, fit.working.values) : 0);
  return exit.map((end, row) => {
    const start = entry[row] as number;
    if (end < start) throw new StatisticsError('exit', `${end} is before entry`, row);
    return hazard(end) - hazard(start);
  });
}

/**
 * Variance of a factor with mean 1 that all lives of a cluster share on their hazard, by moments:
 * (O − E)² of a cluster has mean E + variance · E². Never below 0.
 *
 * @param data failures seen and expected of each life, and its cluster; columns of one length.
 * @throws StatisticsError on bad columns.
 * Source: Breslow 1984, Applied Statistics 33:38; Lawless 1987, Canadian J. Statistics 15:209. Outside check: by hand.
 */
export function sharedHazardVariance(data: {
  readonly observed: NumberColumn;
  readonly expected: NumberColumn;
  readonly cluster: CategoryColumn;
}): number {
  const rows = data.expected.length;
  const observed = byCluster('observed', data.observed, data.cluster);
  const expected = byCluster('expected', data.expected, data.cluster);
  if (rows === 0) return 0;
  let [above, squares] = [0, 0];
  expected.forEach((own, cluster) => {
    above += ((observed[cluster] as number) - own) ** 2 - own;
    squares += own * own;
  });
  return squares > 0 ? Math.max(0, above / squares) : 0;
}

/**
 * Drawn totals with the chance that clusters share added: each is multiplied by a gamma factor of mean
 * 1, whose variance is that of the clusters' factors weighted by the failures expected of each.
 *
 * @param forecast `drawn` totals of forecastFailures; `expected` of each unit, and its `cluster`.
 * @param variance of the factor, from sharedHazardVariance.
 * @returns whole numbers, in the order of the draws.
 * @throws StatisticsError on bad columns.
 * Source: Breslow 1984, Applied Statistics 33:38; Lawless 1987; Meeker & Escobar (1998) §12.6 for prediction by
 * draws. Outside check: mean and variance in closed form.
 */
export function withSharedHazard(
  forecast: { readonly drawn: Float64Array; readonly expected: NumberColumn; readonly cluster: CategoryColumn },
  variance: number,
  random: Random,
): Float64Array {
  const expected = byCluster('expected', forecast.expected, forecast.cluster);
  const sum = expected.reduce((total, own) => total + own, 0);
  const squares = expected.reduce((total, own) => total + own * own, 0);
  const own = sum > 0 ? (variance * squares) / (sum * sum) : 0;
  if (!(own > 1e-12)) return forecast.drawn.slice();
  return forecast.drawn.map((total) => Math.round(total * random.gamma(1 / own) * own));
}

function byCluster(name: string, column: NumberColumn, cluster: CategoryColumn): Float64Array {
  const values = toNumbers(name, column, column.length);
  const { count, codes } = toCodes('cluster', cluster, column.length);
  const sums = new Float64Array(count);
  values.forEach((value, row) => {
    const code = codes[row] as number;
    sums[code] = (sums[code] as number) + value;
  });
  return sums;
}
