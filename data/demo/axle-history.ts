import type { AxlePlan, DemoUnit } from './draw-unit.ts';
import { firstTruth } from './life-truth.ts';
import { CLASSES } from './story.ts';
import type { UnitPapers } from './unit-history.ts';
import { WheelEnd } from './wheel-end.ts';

/** Wheels lost through their fasteners: not a wheel-end failure, but on file. */
const FASTENER_LOSSES_PER_MILE = 0.003e-6;

/** One axle of one unit: two wheel ends that share brake work, orders and checks. */
export class AxleHistory {
  readonly unit: DemoUnit;
  readonly papers: UnitPapers;
  readonly axle: AxlePlan;
  readonly ends: readonly [WheelEnd, WheelEnd];
  today: number;
  relineDay = Infinity;
  fastenerDay: number;

  constructor(unit: DemoUnit, papers: UnitPapers, axle: AxlePlan) {
    this.unit = unit;
    this.papers = papers;
    this.axle = axle;
    this.today = unit.fromDay;
    this.ends = [new WheelEnd(unit, axle, 'left'), new WheelEnd(unit, axle, 'right')];
    for (const end of this.ends) end.startFirst(firstTruth(end));
    this.planReline(unit.knownNew ? 1 : unit.random.uniform());
    const { random, mileage } = unit;
    this.fastenerDay = mileage.dayReaching(mileage.at(this.today) + random.exponential(0.5 / FASTENER_LOSSES_PER_MILE));
  }

  /** Linings last until brake work; `share` of a full interval is left. */
  planReline(share = 1): void {
    const { random, mileage, unitClass } = this.unit;
    const { relineMiles, relineDeviation } = CLASSES[unitClass];
    const left = share * Math.max(60_000, random.normal(relineMiles, relineDeviation));
    this.relineDay = Math.max(this.today + 1, mileage.dayReaching(mileage.at(this.today) + left));
  }

  mateOf(end: WheelEnd): WheelEnd {
    return end === this.ends[0] ? this.ends[1] : this.ends[0];
  }
}
