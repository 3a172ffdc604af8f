import { isoDateOf } from './calendar.ts';
import { codesOf } from './planted-deviations.ts';
import type { Installation } from './draw-installation.ts';
import type { LifeEnd, LifeTruth } from './life-truth-row.ts';
import { observedFromDay } from './story.ts';
import type { UnitPapers } from './unit-history.ts';
import type { WheelEnd } from './wheel-end.ts';

export interface Start {
  readonly day: number;
  readonly miles: number;
  readonly start: LifeTruth['start'];
  readonly serviceId: string | null;
  readonly shop: string | null;
  readonly lot: string | null;
  readonly installation: Installation | null;
}

/** A life's truth at its start; how it ends is filled in when it does. */
export function lifeTruth(end: WheelEnd, from: Start): LifeTruth {
  return {
    unit_id: end.unit.row.unit_id,
    axle: end.axle.number,
    side: end.side,
    install_date: isoDateOf(from.day),
    install_miles: from.miles,
    start: from.start,
    start_service_id: from.serviceId,
    role: end.axle.role,
    duty: end.unit.duty,
    shop: from.shop,
    hub_build: end.axle.build,
    lubricant: end.axle.lubricant,
    seal_lot: from.lot,
    deviations: from.installation ? codesOf(from.installation.bits).join(';') : '',
    cause: '',
    onset_age: 0,
    entry_age: 0,
    exit_age: 0,
    end: 'running',
    failure_id: null,
  };
}

export function firstTruth(end: WheelEnd): LifeTruth {
  const { mileage, fromDay, knownNew } = end.unit;
  return lifeTruth(end, {
    day: fromDay,
    miles: mileage.read(fromDay),
    start: knownNew ? 'original' : 'unknown',
    serviceId: null,
    shop: null,
    lot: null,
    installation: null,
  });
}

/** Ends a life at a day; a seal that failed before keeps the miles at which its failure was found. */
export function closeLife(
  papers: UnitPapers,
  end: WheelEnd,
  day: number,
  how: LifeEnd,
  failureId: string | null,
): void {
  const { mileage } = end.unit;
  const { truth } = end.life;
  const opened = Math.max(end.life.installDay, observedFromDay);
  truth.entry_age = mileage.read(opened) - truth.install_miles;
  truth.exit_age = Math.max(how === 'failed' ? 1 : 0, mileage.read(day) - truth.install_miles);
  // Nor does a life that ends on the window's first day have miles in it.
  truth.end = day <= observedFromDay ? 'before-window' : how;
  truth.failure_id = failureId;
  papers.truthLives.push(truth);
}
