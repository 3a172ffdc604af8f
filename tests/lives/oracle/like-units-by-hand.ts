// Miles of units without an odometer: those of units like them, by day.
import type { Fleet, Row } from '../record-tables-in-engine.ts';
import { dayOf, knownDays, type Window } from './odometer.ts';

const isoOf = (day: number) => new Date(day * 86_400_000).toISOString().slice(0, 10);

function middle(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  if (sorted.length === 0) return null;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

function kindOf(unit: Row): string {
  if (unit['unit_kind']) return String(unit['unit_kind']);
  const roles = String(unit['axle_roles']);
  return roles.split(/[; ]+/).every((role) => role === 'trailer' || role === '') ? 'trailer' : roles;
}

/** Gives readings to every unit without two known days that is like three or more others. */
export function estimateLikeUnits(tables: { units: Row[]; readings: Row[] } & Fleet, window: Window): Set<string> {
  const events = [
    ...tables.readings,
    ...(tables.services ?? []),
    ...(tables.inspections ?? []),
    ...(tables.failures ?? []),
  ];
  const facts = tables.units.map((unit) => ({ unit, known: knownDays(String(unit['unit_id']), unit, events) }));
  const paces = facts.flatMap(({ unit, known }) => {
    const [first, last] = [known[0], known.at(-1)];
    return first && last && last.day > first.day
      ? [{ kind: kindOf(unit), duty: unit['duty'] ?? null, pace: (last.high - first.low) / (last.day - first.day) }]
      : [];
  });
  const estimated = new Set<string>();
  for (const { unit, known } of facts) {
    if (known.length > 1) continue;
    const alike = paces.filter(({ kind }) => kind === kindOf(unit));
    const ofDuty = alike.filter(({ duty }) => duty !== null && duty === (unit['duty'] ?? null));
    const pace = middle((ofDuty.length >= 3 ? ofDuty : alike.length >= 3 ? alike : []).map((one) => one.pace));
    if (pace === null) continue;
    const unitId = String(unit['unit_id']);
    const [only] = known;
    const began = Math.min(dayOf(unit['in_service_date']) ?? window.from, only?.day ?? Infinity);
    const ended = Math.max(Math.min(dayOf(unit['out_date']) ?? window.to, window.to), only?.day ?? -Infinity);
    const then = only ? Math.max(only.low - pace * (only.day - began), 0) : 0;
    const now = only ? only.low + pace * (ended - only.day) : pace * (ended - began);
    if (only?.day !== began) tables.readings.push({ unit_id: unitId, date: isoOf(began), miles: then });
    if (ended > began && only?.day !== ended) tables.readings.push({ unit_id: unitId, date: isoOf(ended), miles: now });
    if (
      unit['acquired'] === 'new' &&
      (unit['in_service_miles'] ?? null) === null &&
      dayOf(unit['in_service_date']) === began
    )
      unit['in_service_miles'] = only?.day === began ? only.low : then;
    estimated.add(unitId);
  }
  return estimated;
}
