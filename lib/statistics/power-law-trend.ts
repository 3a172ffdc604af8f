import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { lowerGamma, upperGamma } from './numeric/incomplete-gamma.ts';
import type { Systems } from './power-law-systems.ts';

/** Tests of no trend: failures of each system as likely at any age of its watch (a constant intensity of its own). */
export interface PowerLawTrend {
  /** 2 Σ log(watch / age into it): chi-square without trend; small when failures come faster with age (MIL-HDBK-189C §6.3). */
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  /** Two-sided, twice the smaller tail. */
  readonly pValue: number;
  /** Laplace: mean place within the watch, standardised; positive when failures come faster with age. */
  readonly laplace: { readonly statistic: number; readonly pValue: number } | null;
}

/** Of a system stopped at a failure, that failure marks the end and says nothing of a trend. */
export function powerLawTrend({ start, end, stoppedAtFailure, failure, system }: Systems): PowerLawTrend {
  let [statistic, places, counted] = [0, 0, 0];
  const dropped = stoppedAtFailure.map((stopped) => !stopped);
  for (let k = 0; k < failure.length; k++) {
    const s = system[k] as number;
    const place = ((failure[k] as number) - (start[s] as number)) / ((end[s] as number) - (start[s] as number));
    if (place === 1 && !dropped[s]) {
      dropped[s] = true;
      continue;
    }
    statistic -= 2 * Math.log(place);
    places += place - 0.5;
    counted++;
  }
  if (counted === 0) return { statistic: 0, degreesOfFreedom: 0, pValue: 1, laplace: null };
  const tails = [lowerGamma(counted, statistic / 2), upperGamma(counted, statistic / 2)];
  const z = places / Math.sqrt(counted / 12);
  return {
    statistic,
    degreesOfFreedom: 2 * counted,
    pValue: Math.min(1, 2 * Math.min(...tails)),
    laplace: { statistic: z, pValue: 2 * normalCdf(-Math.abs(z), 0, 1) },
  };
}
