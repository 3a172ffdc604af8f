import type { Estimate } from '../../shared/finding.ts';
import type { Interval } from '../statistics/index.ts';

export interface EstimateAbout {
  readonly level: number;
  readonly unit: string;
  readonly method: string;
  /** Why the value is null; needed where it is. */
  readonly reason?: string | null;
  /** Stored value = the statistic's value × factor. */
  readonly factor?: number;
}

/** A statistic's interval as a finding's estimate, vehicle-robust limits beside its own where there are any. */
export function toEstimate(interval: Interval, about: EstimateAbout, vehicle?: Interval | null): Estimate {
  const { level, unit, method, factor = 1 } = about;
  const scaled = (value: number | null) => (value === null || !Number.isFinite(value) ? null : value * factor);
  const value = scaled(interval.value);
  return {
    ...{ value, lower: scaled(interval.lower), upper: scaled(interval.upper), level, unit, method },
    ...(value === null ? { reason: about.reason ?? 'not defined for these lives' } : {}),
    ...(vehicle && !(vehicle.lower === null && vehicle.upper === null)
      ? { vehicleLower: scaled(vehicle.lower), vehicleUpper: scaled(vehicle.upper) }
      : {}),
  };
}

/** An estimate that cannot be given, and why. */
export const noEstimate = (about: EstimateAbout & { readonly reason: string }): Estimate =>
  toEstimate({ value: null, lower: null, upper: null }, about);
