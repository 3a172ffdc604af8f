import { early } from './planted-deviations.ts';

/** End play in thousandths of an inch acts by dose above the 0.005 in limit: +22 % hazard a thousandth. */
export function endPlayHazard(thousandths: number): number {
  return Math.exp(0.2 * Math.max(0, thousandths - 5));
}

/** Spindles get worn by a first failure: at an end without one they are left undressed this much less often. */
export const NOT_DRESSED_AT_FIRST = 0.35;

/** Wear of the seal: Weibull in miles, before deviations, duty and frailty multiply its hazard. */
export const SEAL_WEAR: Readonly<Record<string, { shape: number; scaleMiles: number }>> = {
  'steer oil': { shape: 2.2, scaleMiles: 620_000 },
  'drive oil': { shape: 2.1, scaleMiles: 500_000 },
  'tag oil': { shape: 2, scaleMiles: 480_000 },
  'pusher oil': { shape: 2, scaleMiles: 480_000 },
  'trailer oil': { shape: 2, scaleMiles: 195_000 },
  'trailer semi-fluid': { shape: 2, scaleMiles: 255_000 },
  'trailer packed': { shape: 2, scaleMiles: 220_000 },
};
export const UNITIZED_WEAR = { shape: 2.4, scaleMiles: 800_000 };
/** Spacer hubs hold their setting: same seal, slower wear where nothing was done wrong. */
export const SPACER_BUILD_HAZARD = 0.75;
export const BEARING_WEAR = { shape: 1.8, scaleMiles: 2_000_000 };
export const SEMI_FLUID_BEARING_HAZARD = 1.6;
export const FRAILTY_VARIANCE = { unit: 0.1, wheelEnd: 0.25 };
export const HAZARD_PER_PRIOR_FAILURE = 0.08;
export const GASKET = {
  failuresPerMile: 0.4e-6,
  reusedEarly: early(0.2, 1, 30_000),
  overfilledVentEarly: early(0.15, 1, 10_000),
  underfilledLowEarly: early(0.15, 1, 25_000),
};

/** How a leak comes to be seen, and what it has done by then. Miles. */
export const DETECTION = {
  oil: { lagMiles: 4_000, wetMiles: 4_000, dripMiles: 6_000, pm: 0.85, annual: 0.95, driverPerMile: 70e-6 },
  'semi-fluid': { lagMiles: 15_000, wetMiles: 14_000, dripMiles: 25_000, pm: 0.55, annual: 0.8, driverPerMile: 8e-6 },
  packed: { lagMiles: 10_000, wetMiles: 10_000, dripMiles: 20_000, pm: 0.65, annual: 0.85, driverPerMile: 6e-6 },
} as const;
/** A seal that was badly put in leaks fast: lags of early branches are this much shorter. */
export const EARLY_LAG_FACTOR = 0.4;
export const SOAK_MILES = { oil: 22_000, 'semi-fluid': 60_000, packed: 60_000 } as const;
export const BEARING_DAMAGE_PER_LEAK_MILE = { oil: 1.5e-6, 'semi-fluid': 2.5e-6, packed: 1.5e-6 } as const;
