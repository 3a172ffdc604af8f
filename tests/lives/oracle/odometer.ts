// How many miles a unit had run on any day (record contract, section 2), over plain rows.
import { middleDayPace } from './meter-by-hand.ts';
import type { Fleet, Row } from '../record-tables-in-engine.ts';

export const dayOf = (iso: unknown): number | null => (typeof iso === 'string' ? Date.parse(iso) / 86_400_000 : null);
export const numberOf = (cell: unknown): number | null => (typeof cell === 'number' ? cell : null);

export interface Window {
  readonly from: number;
  readonly to: number;
}

export interface Mileage {
  readonly miles: number;
  readonly quality: 'measured' | 'interpolated' | 'extrapolated';
}

/** A day's first and last known miles. */
interface KnownDay {
  readonly day: number;
  readonly low: number;
  readonly high: number;
}

export interface Odometer {
  readonly known: readonly KnownDay[];
  /** The stretch of miles in which failures would have been recorded. */
  readonly observedFrom: number;
  readonly observedTo: number;
  /** The days of that stretch. */
  readonly fromDay: number;
  readonly toDay: number;
  /** The unit left within the window; its day, where known. */
  readonly left: boolean;
  readonly leftOn: number | null;
}

export const eventTables = ['services', 'inspections', 'failures'] as const;

/** Declared dates first; else the first and last date of services, inspections and failures. */
export function observationWindow(fleet: Fleet, declared: { from?: string; to?: string }): Window | null {
  const days = eventTables.flatMap((table) => (fleet[table] ?? []).map((row) => dayOf(row['date']) as number));
  const from = dayOf(declared.from) ?? (days.length > 0 ? Math.min(...days) : null);
  const to = dayOf(declared.to) ?? (days.length > 0 ? Math.max(...days) : null);
  return from === null || to === null ? null : { from, to };
}

/** The unit's good miles of every table, a day at a time. */
export function knownDays(unitId: string, unit: Row | undefined, rows: readonly Row[]): KnownDay[] {
  const days = new Map<number, KnownDay>();
  const add = (date: unknown, cell: unknown) => {
    const [day, miles] = [dayOf(date), numberOf(cell)];
    if (day === null || miles === null) return;
    const { low, high } = days.get(day) ?? { low: miles, high: miles };
    days.set(day, { day, low: Math.min(low, miles), high: Math.max(high, miles) });
  };
  add(unit?.['in_service_date'], unit?.['in_service_miles']);
  add(unit?.['out_date'], unit?.['out_miles']);
  for (const row of rows) if (row['unit_id'] === unitId) add(row['date'], row['miles']);
  return [...days.values()].sort((a, b) => a.day - b.day);
}

/**
 * Miles on a day: linear in days between the nearest known days, carried on at the pace of the
 * unit's middle day outside them. On a known day `end` says whether its first or its last miles are meant.
 */
export function milesOn(known: readonly KnownDay[], day: number, end: 'low' | 'high'): Mileage | null {
  const before = known.findLast((point) => point.day <= day);
  const after = known.find((point) => point.day >= day);
  if (before?.day === day) return { miles: before[end], quality: 'interpolated' };
  if (before && after) {
    const share = (day - before.day) / (after.day - before.day);
    return { miles: before.high + share * (after.low - before.high), quality: 'interpolated' };
  }
  const [first, last] = [known[0], known.at(-1)];
  if (!first || !last || first === last) return null;
  const pace = middleDayPace(
    known.flatMap(({ day: on, low, high }) => [
      { day: on, miles: low, trust: 0 },
      { day: on, miles: high, trust: 0 },
    ]),
  );
  if (pace === null) return null;
  const miles = before ? last.high + pace * (day - last.day) : first.low - pace * (first.day - day);
  return { miles: Math.max(miles, 0), quality: 'extrapolated' };
}

export function odometerOf(
  unitId: string,
  unit: Row | undefined,
  rows: readonly Row[],
  window: Window,
): Odometer | null {
  const known = knownDays(unitId, unit, rows);
  const [first, last] = [known[0], known.at(-1)];
  if (!first || !last) return null;
  const on = (day: number, end: 'low' | 'high') => milesOn(known, day, end)?.miles;
  const began = dayOf(unit?.['in_service_date']);
  const inService = numberOf(unit?.['in_service_miles']);
  const leftOn = dayOf(unit?.['out_date']);
  const outMiles = numberOf(unit?.['out_miles']);
  const left = leftOn === null ? outMiles !== null : leftOn <= window.to;
  const from =
    began !== null && began >= window.from
      ? (inService ?? (began >= first.day && began <= last.day ? on(began, 'high') : undefined) ?? first.low)
      : first.day > window.from
        ? Math.max(first.low, inService ?? 0)
        : (on(window.from, 'low') ?? Infinity);
  const lastKnown = last.day <= window.to ? last.high : (on(window.to, 'high') ?? -Infinity);
  const leftAt = outMiles ?? (leftOn !== null && leftOn <= last.day ? on(leftOn, 'high') : undefined) ?? last.high;
  const fromDay = began !== null && began >= window.from ? began : Math.max(first.day, window.from);
  // Work after the last known miles shows that the unit ran on until then.
  const worked = rows
    .filter((row) => row['unit_id'] === unitId && row['axle'] !== undefined)
    .map((row) => dayOf(row['date']))
    .filter(
      (day): day is number =>
        day !== null && day > last.day && day <= window.to && (!left || (leftOn !== null && day <= leftOn)),
    )
    .filter((day) => milesOn(known, day, 'high') !== null);
  const lateDay = Math.max(-Infinity, ...worked);
  const lateMiles = worked.length > 0 ? (on(lateDay, 'high') as number) : -Infinity;
  const outIsTold = leftOn !== null && (outMiles !== null || last.day >= leftOn);
  const toDay = left ? (outIsTold ? leftOn : last.day) : Math.min(last.day, window.to);
  return {
    known,
    observedFrom: from,
    observedTo: Math.max(left ? leftAt : lastKnown, lateMiles),
    fromDay,
    toDay: Math.max(toDay, lateDay),
    left,
    leftOn,
  };
}
