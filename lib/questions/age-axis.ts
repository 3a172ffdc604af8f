import type { Axis } from '../../shared/view.ts';
import { daysAMonth } from '../../shared/units.ts';

/** What follows from counting ages, and what was watched, in miles or in months. */
export interface AgeAxis {
  /** Events by one of the axis, times this, are a rate as it is said. */
  readonly factor: number;
  readonly rateUnit: string;
  /** The least that an age can be known by. */
  readonly step: number;
  readonly nothingWatched: string;
}

/** A hundred wheel-end years are 1,200 months: a fleet's year on a hundred wheel ends. */
export const ageAxes: Readonly<Record<Axis, AgeAxis>> = {
  miles: { factor: 1e6, rateUnit: 'per million miles', step: 1, nothingWatched: 'no miles were watched' },
  months: {
    factor: 1_200,
    rateUnit: 'per 100 wheel-end years',
    step: 1 / daysAMonth,
    nothingWatched: 'no day was watched',
  },
};

/** `failures` on miles: `failuresPerMillionMiles`. */
export const rateName = (events: 'failures' | 'contaminated', axis: Axis): string =>
  `${events}${axis === 'months' ? 'PerHundredWheelEndYears' : 'PerMillionMiles'}`;
