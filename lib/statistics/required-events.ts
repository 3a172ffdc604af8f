import { toLevel } from './interval.ts';
import { standardNormalQuantile } from './numeric/normal.ts';
import { StatisticsError } from './statistics-error.ts';

export interface StudyDesign {
  /** Share of the subjects in the group of interest, 0.5 unless given. */
  readonly share?: number;
  /** Chance of finding the ratio if it is real, 0.8 unless given. */
  readonly power?: number;
  /** Confidence level of the test to come, 0.95 unless given. */
  readonly level?: number;
  /** `two` (default) or `one`-sided test. */
  readonly sided?: 'two' | 'one';
  /**
   * Factor on the variance, 1 unless given: 1/(1 − R²) where covariates explain the exposure, times the design effect
   * (robust variance over model variance) where subjects share a vehicle.
   */
  readonly inflation?: number;
}

/**
 * Events (not subjects) needed to find a hazard ratio. `value` is the bare formula, `events` the next whole number.
 *
 * Source: Schoenfeld 1983, Biometrics 39:499, eq. 1: (z₁₋α/₂ + z_power)² / (p(1 − p) log²HR). The approximation holds
 * for ratios within about 1/3 to 3. Outside check: worked by hand; power under simulation.
 *
 * @throws StatisticsError for a ratio of 1 or not above zero, or a design out of range, naming the argument.
 */
export function requiredEvents(
  data: { readonly ratio: number },
  design: StudyDesign = {},
): {
  readonly value: number;
  readonly events: number;
} {
  if (!(data.ratio > 0 && data.ratio < Infinity) || data.ratio === 1)
    throw new StatisticsError('ratio', `${data.ratio} cannot be told from 1 by any number of events`);
  const value = information(design) / Math.log(data.ratio) ** 2;
  return { value, events: Math.ceil(value - 1e-9) };
}

/**
 * The smallest ratio above 1 that so many events would find with the design's power; its inverse `below` is the
 * largest ratio below 1. The reverse of `requiredEvents`.
 *
 * Source: Schoenfeld 1983, Biometrics 39:499, eq. 1 solved for the ratio. Outside check: the reverse, 1e-9.
 *
 * @throws StatisticsError for events not above zero or a design out of range, naming the argument.
 */
export function detectableRatio(
  data: { readonly events: number },
  design: StudyDesign = {},
): {
  readonly above: number;
  readonly below: number;
} {
  if (!(data.events > 0 && data.events < Infinity))
    throw new StatisticsError('events', `${data.events} is not above zero`);
  const log = Math.sqrt(information(design) / data.events);
  return { above: Math.exp(log), below: Math.exp(-log) };
}

/** (z₁₋α + z_power)² · inflation / (p(1 − p)): the events times the squared log ratio a design asks for. */
function information({ share = 0.5, power = 0.8, level, sided = 'two', inflation = 1 }: StudyDesign): number {
  const miss = 1 - toLevel(level);
  if (!(share > 0 && share < 1)) throw new StatisticsError('share', `${share} is not between 0 and 1`);
  const alpha = sided === 'two' ? miss / 2 : miss;
  if (!(power > alpha && power < 1)) throw new StatisticsError('power', `${power} is not between ${alpha} and 1`);
  if (!(inflation >= 1 && inflation < Infinity)) throw new StatisticsError('inflation', `${inflation} is below 1`);
  const reach = standardNormalQuantile(power) - standardNormalQuantile(alpha);
  return (inflation * reach ** 2) / (share * (1 - share));
}
