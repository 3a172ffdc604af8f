import { DAYS_PER_YEAR } from './calendar.ts';
import type { Random } from './random.ts';

const KNOT_DAYS = 30;

/** Odometer of one unit as a strictly rising, piecewise linear function of the day. */
export class UnitMileage {
  private readonly miles: Float64Array;
  readonly fromDay: number;
  readonly toDay: number;

  constructor(random: Random, fromDay: number, toDay: number, startMiles: number, milesPerYear: number) {
    this.fromDay = fromDay;
    this.toDay = toDay;
    const knots = Math.ceil((toDay - fromDay) / KNOT_DAYS) + 2;
    this.miles = new Float64Array(knots);
    this.miles[0] = startMiles;
    for (let knot = 1; knot < knots; knot++) {
      const day = fromDay + knot * KNOT_DAYS;
      const season = 1 + 0.1 * Math.cos((2 * Math.PI * (day - 240)) / DAYS_PER_YEAR);
      const noise = Math.exp(0.15 * random.normal());
      const run = (milesPerYear / DAYS_PER_YEAR) * KNOT_DAYS * season * noise;
      this.miles[knot] = (this.miles[knot - 1] as number) + run;
    }
  }

  /** Odometer at a day, in miles; defined from `fromDay` on. */
  at(day: number): number {
    const place = (day - this.fromDay) / KNOT_DAYS;
    const knot = Math.max(0, Math.min(Math.floor(place), this.miles.length - 2));
    const below = this.miles[knot] as number;
    return below + (place - knot) * ((this.miles[knot + 1] as number) - below);
  }

  /** What a record would say on that day: whole miles, so equal days have equal miles. */
  read(day: number): number {
    return Math.round(this.at(day));
  }

  /** First whole day at or after the odometer passes `miles`; Infinity beyond the unit's stay. */
  dayReaching(miles: number): number {
    const last = this.miles.length - 1;
    if (miles > (this.miles[last] as number)) return Infinity;
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((this.miles[middle] as number) < miles) low = middle;
      else high = middle;
    }
    const below = this.miles[low] as number;
    const above = this.miles[high] as number;
    return Math.ceil(this.fromDay + KNOT_DAYS * (low + Math.max(0, (miles - below) / (above - below))));
  }
}
