import { cusumWeight, simulateCusumMaxima } from './cusum-limit.ts';
import { StatisticsError } from './statistics-error.ts';
import { toNumbers, type NumberColumn } from './survival-data.ts';

export interface CusumData {
  /** Events in each step, in order of time; 0 or 1 per subject with `model: 'binary'`. */
  readonly observed: NumberColumn;
  /** Events the reference predicts for the step, or with `binary` the subject's risk. */
  readonly expected: NumberColumn;
}

export interface CusumOptions {
  /** The change to be caught: a rate ratio (an odds ratio with `binary`), below 1 for better, above 1 for worse. */
  readonly ratio: number;
  /** `count` (default): events in steps of time. `binary`: one subject a step, Steiner's own setting. */
  readonly model?: 'count' | 'binary';
  /** Signal limit on the score, if it was fixed beforehand; else it is found by simulation. */
  readonly limit?: number;
  /** Share of periods without any change that may end in a signal, 0.05 unless given. */
  readonly falseSignalShare?: number;
  /**
   * Expected events in each step of the whole planned period, or their total where every event is looked at as it
   * comes; `expected` unless given. To be fixed before the first step: a limit that grows with the data never holds.
   */
  readonly plannedExpected?: number | NumberColumn;
  /** Variance over mean of the counts, at least 1 (default): above it where events cluster within vehicles. */
  readonly dispersion?: number;
  /** Standard error of the log of the expectation, 0 unless given: the reference was itself estimated. */
  readonly expectedErrorLog?: number;
  readonly simulations?: number;
  readonly seed?: number;
}

export interface Cusum {
  readonly ratio: number;
  /** Running sum of observed less expected after each step. */
  readonly observedMinusExpected: Float64Array;
  /** Running evidence for the ratio against no change, never below zero; a signal when it passes `limit`. */
  readonly score: Float64Array;
  readonly limit: number;
  /** Share of simulated periods without change whose score passed the limit; null when the limit was given. */
  readonly falseSignalShare: number | null;
  /** First step whose score is above the limit; null while there is none. */
  readonly signalAt: number | null;
  readonly simulations: number;
  readonly seed: number;
}

/**
 * Risk-adjusted running sum of observed minus expected, with the likelihood-ratio score that signals a change. The
 * score adds O·log R − (R − 1)·E each step (`binary`: O·log R − log(1 − p + R·p)) and is held at zero from below. The
 * limit is the one that at most `falseSignalShare` of simulated periods without change pass.
 *
 * Source: Steiner, Cook, Farewell & Treasure 2000, Biostatistics 1:441, eq. 2.2–2.3; for counts against a fitted
 * hazard Biswas & Kalbfleisch 2008, Statistics in Medicine 27:3382. Outside check: false signals under simulation.
 *
 * @throws StatisticsError for columns of unlike length, an event where none is expected, a ratio of 1 or not above
 * zero, or an option out of range, naming the argument and row.
 */
export function cusum(data: CusumData, options: CusumOptions): Cusum {
  const { ratio, model = 'count' } = options;
  if (!(ratio > 0 && ratio < Infinity) || ratio === 1)
    throw new StatisticsError('ratio', `${ratio} is not a change: wanted a number above zero other than 1`);
  const observed = toNumbers('observed', data.observed, data.observed.length);
  const expected = toNumbers('expected', data.expected, data.observed.length);
  checkSteps(observed, expected, model);
  const found = options.limit === undefined ? findLimit(expected, options) : null;
  const limit = found?.limit ?? options.limit ?? NaN;
  if (!(limit > 0)) throw new StatisticsError('limit', `${limit} is not above zero`);
  const observedMinusExpected = new Float64Array(observed.length);
  const score = new Float64Array(observed.length);
  let [difference, evidence, signalAt] = [0, 0, -1];
  for (let step = 0; step < observed.length; step++) {
    const [seen, predicted] = [observed[step] as number, expected[step] as number];
    observedMinusExpected[step] = difference += seen - predicted;
    score[step] = evidence = Math.max(0, evidence + cusumWeight(seen, predicted, ratio, model));
    if (signalAt < 0 && evidence > limit) signalAt = step;
  }
  return {
    ...{ ratio, observedMinusExpected, score, limit, signalAt: signalAt < 0 ? null : signalAt },
    ...{ falseSignalShare: found?.share ?? null, simulations: found?.simulations ?? 0, seed: options.seed ?? 1 },
  };
}

function checkSteps(observed: Float64Array, expected: Float64Array, model: 'count' | 'binary'): void {
  for (let step = 0; step < observed.length; step++) {
    const [seen, predicted] = [observed[step] as number, expected[step] as number];
    if (!Number.isInteger(seen) || seen < 0 || (model === 'binary' && seen > 1))
      throw new StatisticsError('observed', `${seen} is not ${model === 'binary' ? '0 or 1' : 'a count'}`, step);
    if (predicted < 0 || (model === 'binary' && predicted >= 1))
      throw new StatisticsError(
        'expected',
        `${predicted} is not ${model === 'binary' ? 'a risk' : 'zero or more'}`,
        step,
      );
    if (seen > 0 && predicted === 0) throw new StatisticsError('expected', 'is zero although there is an event', step);
  }
}

function findLimit(expected: Float64Array, options: CusumOptions) {
  const { ratio, falseSignalShare = 0.05, dispersion = 1, expectedErrorLog = 0, seed = 1 } = options;
  const plan = toPlan(expected, options);
  if (!(falseSignalShare > 0 && falseSignalShare < 1))
    throw new StatisticsError('falseSignalShare', `${falseSignalShare} is not between 0 and 1`);
  if (!(dispersion >= 1)) throw new StatisticsError('dispersion', `${dispersion} is below 1`);
  if (!(expectedErrorLog >= 0)) throw new StatisticsError('expectedErrorLog', `${expectedErrorLog} is negative`);
  if (plan.model === 'binary' && dispersion > 1)
    throw new StatisticsError('dispersion', 'applies to counts, not to one subject a step');
  // Enough repeats that the share is known to a third of a percent, few enough that a long period stays quick.
  const draws = plan.steps?.length ?? plan.total;
  const simulations = options.simulations ?? Math.max(5_000, Math.min(20_000, Math.floor(4e6 / draws)));
  if (!(Number.isInteger(simulations) && simulations * falseSignalShare >= 1))
    throw new StatisticsError('simulations', `${simulations} are too few for a share of ${falseSignalShare}`);
  const maxima = simulateCusumMaxima({ ...plan, ratio, dispersion, expectedErrorLog, simulations, seed }).sort();
  const limit = maxima[simulations - 1 - Math.floor(falseSignalShare * simulations)] as number;
  const share = maxima.reduce((passed, most) => passed + (most > limit ? 1 : 0), 0) / simulations;
  return { limit, share, simulations };
}

function toPlan(expected: Float64Array, { plannedExpected = expected, model = 'count' }: CusumOptions) {
  const whole = typeof plannedExpected === 'number';
  if (whole && model === 'binary')
    throw new StatisticsError('plannedExpected', 'has to be the risk of each subject with the binary model');
  const steps = whole ? null : toNumbers('plannedExpected', plannedExpected, plannedExpected.length);
  if (steps) checkSteps(new Float64Array(steps.length), steps, model);
  const total = steps ? steps.reduce((sum, value) => sum + value, 0) : (plannedExpected as number);
  if (!(total > 0 && total < Infinity)) throw new StatisticsError('plannedExpected', `${total} is not above zero`);
  return { model, steps, total };
}
