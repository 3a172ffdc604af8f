import type { CoxProblem } from './cox-problem.ts';
import type { RiskSums } from './cox-sweep.ts';

/** One row an event, in order of stratum and time. */
export interface ScaledSchoenfeld {
  readonly time: Float64Array;
  readonly transformedTime: Float64Array;
  /** The row of the data each event is. */
  readonly row: Uint32Array;
  /** Row-major events × terms: its mean over a stretch of time estimates the log ratio there. */
  readonly values: Float64Array;
}

/** Event's covariates less the mean over its tie, row-major events × width. */
function schoenfeld({ sets, width, table, pattern, events: { weight } }: CoxProblem, sums: RiskSums): Float64Array {
  const residuals = new Float64Array(sets.events * width);
  let index = 0;
  for (let time = 0; time < sets.time.length; time++) {
    const start = sets.firstPosition[time] as number;
    for (let position = start; position < start + (sets.deaths[time] as number); position++, index++)
      for (let j = 0, base = time * width; j < width; j++) {
        let mean = (sums.hazard[time] as number) * (sums.first[base + j] as number);
        if (sums.spared[time] !== 0) mean -= (sums.spared[time] as number) * (sums.deathFirst[base + j] as number);
        const x = table[(pattern[position] as number) * width + j] as number;
        residuals[index * width + j] = x - mean / (weight[time] as number);
      }
  }
  return residuals;
}

/** β + D · V · residual (Grambsch & Therneau 1994), in the covariates' own units, terms `finite` only. */
export function scaledSchoenfeld(
  problem: CoxProblem,
  sums: RiskSums,
  transformed: Float64Array,
  beta: Float64Array,
  covariance: Float64Array,
  finite: readonly number[],
): ScaledSchoenfeld {
  const { sets, width, scale } = problem;
  const residuals = schoenfeld(problem, sums);
  const time = new Float64Array(sets.events);
  const transformedTime = new Float64Array(sets.events);
  const row = new Uint32Array(sets.events);
  const values = new Float64Array(sets.events * finite.length);
  let index = 0;
  for (let at = 0; at < sets.time.length; at++)
    for (let death = 0; death < (sets.deaths[at] as number); death++, index++) {
      time[index] = sets.time[at] as number;
      transformedTime[index] = transformed[at] as number;
      row[index] = sets.row[(sets.firstPosition[at] as number) + death] as number;
      finite.forEach((j, column) => {
        let sum = 0;
        for (const k of finite) sum += (covariance[j * width + k] as number) * (residuals[index * width + k] as number);
        const value = (beta[j] as number) + sets.events * sum;
        values[index * finite.length + column] = value / (scale[j] as number);
      });
    }
  return { time, transformedTime, row, values };
}

/** The statistics of 1994, from the residuals and the covariance of the fit alone. */
export function approximation1994(
  problem: CoxProblem,
  sums: RiskSums,
  centred: Float64Array,
  covariance: Float64Array,
  finite: readonly number[],
): { statistic: Float64Array; global: number } {
  const { sets, width } = problem;
  const residuals = schoenfeld(problem, sums);
  const tilt = new Float64Array(width);
  let squares = 0;
  for (let time = 0, index = 0; time < sets.time.length; time++)
    for (let death = 0; death < (sets.deaths[time] as number); death++, index++) {
      const g = centred[time] as number;
      squares += g * g;
      for (let j = 0; j < width; j++) tilt[j] = (tilt[j] as number) + g * (residuals[index * width + j] as number);
    }
  const turned = finite.map((j) =>
    finite.reduce((sum, k) => sum + (covariance[j * width + k] as number) * (tilt[k] as number), 0),
  );
  // With every failure at one time there is nothing to tilt by.
  const factor = squares > 0 ? sets.events / squares : 0;
  const statistic = Float64Array.from(
    finite,
    (j, index) => (factor * (turned[index] as number) ** 2) / (covariance[j * width + j] as number),
  );
  return {
    statistic,
    global: factor * turned.reduce((sum, value, index) => sum + value * (tilt[finite[index] as number] as number), 0),
  };
}
