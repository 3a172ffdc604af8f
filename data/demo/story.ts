import { dayOf } from './calendar.ts';

/**
 * The invented fleet's story: who repairs what, where, from when to when. Nothing here was measured
 * anywhere. Shop order is the order of every five-number list in this folder; a sixth number is
 * outside work (vendors and roadside calls).
 */
export const SHOPS = ['Ambleford', 'Brackwell', 'Coldmere', 'Dunhollow', 'Eastfen', 'Outside'] as const;

export const OUTSIDE = 5;

export const OBSERVED_FROM = '2019-07-01';
export const OBSERVED_TO = '2025-06-30';
/** Services are on file from here on; failures and inspections only from OBSERVED_FROM. */
export const RECORDS_FROM = '2016-01-01';
export const observedFromDay = dayOf(OBSERVED_FROM);
export const observedToDay = dayOf(OBSERVED_TO);
export const recordsFromDay = dayOf(RECORDS_FROM);

/** Coldmere keeps trailers, Eastfen tractors: the mix that makes the raw order of shops misleading. */
export const POWER_SHARE = [0.28, 0.28, 0.06, 0.14, 0.24];
export const TRAILER_SHARE = [0.1, 0.2, 0.54, 0.13, 0.03];
export const JOBS_AT_HOME = 0.86;

export type UnitClass = 'linehaul' | 'regional' | 'trailer' | 'straight';
export interface ClassPlan {
  readonly share: number;
  readonly milesPerYear: number;
  readonly milesLogDeviation: number;
  /** Days between services with a wheel-end sheet. */
  readonly checkDays: number;
  readonly roadsidePerYear: number;
  readonly relineMiles: number;
  readonly relineDeviation: number;
  readonly soldPerYear: number;
}
export const CLASSES: Readonly<Record<UnitClass, ClassPlan>> = {
  linehaul: plan(0.18, 102_000, 0.15, 125, 0.3, 260_000, 50_000, 0.07),
  regional: plan(0.12, 58_000, 0.25, 150, 0.25, 240_000, 50_000, 0.06),
  trailer: plan(0.6, 42_000, 0.35, 180, 0.08, 170_000, 40_000, 0.04),
  straight: plan(0.1, 22_000, 0.4, 180, 0.1, 130_000, 30_000, 0.05),
};

function plan(
  share: number,
  milesPerYear: number,
  milesLogDeviation: number,
  checkDays: number,
  roadsidePerYear: number,
  relineMiles: number,
  relineDeviation: number,
  soldPerYear: number,
): ClassPlan {
  return {
    share,
    milesPerYear,
    milesLogDeviation,
    checkDays,
    roadsidePerYear,
    relineMiles,
    relineDeviation,
    soldPerYear,
  };
}

/** Duty acts on seal wear and is in the records, so it can be adjusted for. */
export const DUTY_HAZARD: Readonly<Record<string, number>> = { linehaul: 1, regional: 1.05, city: 1.15, quarry: 1.7 };

/** From this date Brackwell works to a new sheet; only how often deviations happen changes. */
export const CHANGE = {
  shop: 'Brackwell',
  date: '2022-07-01',
  day: dayOf('2022-07-01'),
  what: 'seal driver and hub dolly at every bay, end play read and outer nut torque written down on each job',
  prevalenceFactor: {
    'seal-cocked': 0.15,
    'hub-hung-on-seal': 0.15,
    'seal-tool-missing': 0.15,
    'end-play-high': 0.25,
    'end-play-unmeasured': 0.15,
    'outer-nut-skipped': 0.1,
    'dirty-cavity': 0.5,
  } as Readonly<Record<string, number>>,
} as const;

/** A poster on the wall: nothing changes. */
export const PLACEBO = { shop: 'Ambleford', date: '2022-01-01', what: 'poster on clean work; no effect planted' };

/** Nine months of agency staff; it ended by itself, and a training visit followed with no effect. */
export const BAD_SPELL = {
  shop: 'Dunhollow',
  from: '2020-10-01',
  to: '2021-06-30',
  fromDay: dayOf('2020-10-01'),
  toDay: dayOf('2021-06-30'),
  prevalenceFactor: 3.5,
  visitDate: '2021-09-01',
  what: 'deviations three and a half times as frequent for nine months, then a training visit without effect',
} as const;

/** Every quarter two lots of seals are in use side by side; one of them was bad. */
export const BAD_LOT = { lot: 'L2004B', share: 0.55, shape: 0.9, scaleMiles: 45_000 } as const;
