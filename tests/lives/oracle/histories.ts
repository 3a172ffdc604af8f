// Each wheel end's renewals and failures in the order they happened (record contract, 5.1 and 5.4), over plain rows.
import type { Procedure } from '../../../shared/procedure.ts';
import { components, type Component } from '../../../shared/vocabulary.ts';
import type { Fleet, Row } from '../record-tables-in-engine.ts';
import { judgedFleet, type JudgedFleet } from './judged-fleet.ts';
import type { Choices } from '../../../shared/choices.ts';
import { procedurePart, words } from './judged-deviations.ts';
import {
  dayOf,
  eventTables,
  milesOn,
  numberOf,
  observationWindow,
  odometerOf,
  type Mileage,
  type Odometer,
  type Window,
} from './odometer.ts';

export interface WheelEnd {
  readonly name: string;
  readonly unitId: string;
  readonly axle: number;
  readonly side: 'left' | 'right';
  readonly role: string | null;
  readonly unit: Row | undefined;
  readonly odometer: Odometer;
}

export interface Happening extends Mileage {
  readonly day: number;
  readonly row: Row;
}

export const wheelEndName = (...place: readonly [unitId: unknown, axle: unknown, side: unknown]) =>
  place.map(String).join(' ');

/** Miles first, then day: what the odometer says outranks what the calendar says. */
export const inOrder = (a: Happening, b: Happening) => a.miles - b.miles || a.day - b.day;
export const sameMoment = (a: Happening, b: Happening) => inOrder(a, b) === 0;

export interface Records {
  readonly wheelEnds: ReadonlyMap<string, WheelEnd>;
  readonly services: ReadonlyMap<string, readonly Happening[]>;
  readonly inspections: ReadonlyMap<string, readonly Happening[]>;
  readonly failures: ReadonlyMap<string, readonly Happening[]>;
  readonly window: Window;
  readonly procedures: readonly Procedure[];
  readonly jobs: readonly Row[];
  readonly judged: JudgedFleet;
}

const rolesOf = (unit: Row | undefined) =>
  String(unit?.['axle_roles'] ?? '')
    .split(/[; ]+/)
    .filter((role) => role !== '');

function positionsOf(fleet: Fleet): { unitId: string; axle: number; side: 'left' | 'right' }[] {
  const both = (unitId: string, axle: number) => (['left', 'right'] as const).map((side) => ({ unitId, axle, side }));
  if ((fleet.units ?? []).length > 0)
    return fleet.units!.flatMap((unit) =>
      rolesOf(unit).flatMap((_, index) => both(String(unit['unit_id']), index + 1)),
    );
  return [...(fleet.services ?? []), ...(fleet.inspections ?? []), ...(fleet.failures ?? [])].map((row) => ({
    unitId: String(row['unit_id']),
    axle: row['axle'] as number,
    side: row['side'] as 'left' | 'right',
  }));
}

/** Dated after the unit left the fleet. */
const isGone = ({ left, leftOn, observedTo }: Odometer, day: number, miles: number | null) =>
  left && (leftOn === null ? miles !== null && miles > observedTo : day > leftOn);

export function readRecords(
  written: Fleet,
  declared: { from?: string; to?: string },
  procedures: readonly Procedure[],
  choices?: Choices,
): Records {
  const window = observationWindow(written, declared);
  const judged = judgedFleet(written, window, choices);
  const { fleet } = judged;
  const units = new Map((fleet.units ?? []).map((unit) => [String(unit['unit_id']), unit]));
  const odometers = new Map<string, Odometer | null>();
  const wheelEnds = new Map<string, WheelEnd>();
  const everyRow = new Map<string, Row[]>();
  for (const row of [...(fleet.readings ?? []), ...eventTables.flatMap((table) => fleet[table] ?? [])])
    everyRow.set(String(row['unit_id']), [...(everyRow.get(String(row['unit_id'])) ?? []), row]);
  for (const { unitId, axle, side } of window ? positionsOf(fleet) : []) {
    const unit = units.get(unitId);
    if (!odometers.has(unitId)) odometers.set(unitId, odometerOf(unitId, unit, everyRow.get(unitId) ?? [], window!));
    const odometer = odometers.get(unitId);
    const name = wheelEndName(unitId, axle, side);
    if (odometer)
      wheelEnds.set(name, { name, unitId, axle, side, role: rolesOf(unit)[axle - 1] ?? null, unit, odometer });
  }
  const placed = (table: 'services' | 'inspections' | 'failures') => {
    const lists = new Map<string, Happening[]>();
    for (const row of fleet[table] ?? []) {
      const name = wheelEndName(row['unit_id'], row['axle'], row['side']);
      const day = dayOf(row['date']) as number;
      const end = wheelEnds.get(name);
      const given = numberOf(row['miles']);
      if (!end || day > window!.to || isGone(end.odometer, day, given)) continue;
      // Of a day known by more than one reading a failure takes the first: it was found before it was repaired.
      const mileage: Mileage | null =
        given === null
          ? milesOn(end.odometer.known, day, table === 'failures' ? 'low' : 'high')
          : { miles: given, quality: judged.repaired.has(row) ? 'interpolated' : 'measured' };
      if (mileage && given === null && judged.estimated.has(end.unitId))
        Object.assign(mileage, { quality: 'extrapolated' });
      if (mileage) lists.set(name, [...(lists.get(name) ?? []), { ...mileage, day, row }]);
    }
    return lists;
  };
  return {
    wheelEnds,
    services: placed('services'),
    inspections: placed('inspections'),
    failures: placed('failures'),
    window: window ?? { from: 0, to: 0 },
    procedures,
    jobs: fleet.services ?? [],
    judged,
  };
}

/**
 * One renewal: every service of that wheel end on that day and mile which renews the component.
 * The first row, one that lists the component where there is one, speaks for it.
 */
export interface Renewal extends Happening {
  readonly rows: readonly Row[];
  /** Not listed among the replaced: the procedure renews it because the hub came off. */
  readonly inferred: boolean;
}

function renews(component: Component, service: Happening, end: WheelEnd, procedures: readonly Procedure[]) {
  const replaced = words(service.row['replaced']);
  const { part } = components[component];
  if (replaced.includes('hub')) return 'listed';
  if (service.row['hub_build'] === 'unitized') return null;
  if (replaced.includes(part)) return 'listed';
  const procedure = procedurePart(procedures, service.day, service.row['hub_build'], end.role);
  const hubOff = replaced.includes('bearings') || replaced.includes('spacer');
  return hubOff && procedure?.renewedWhenHubComesOff.includes(part) ? 'inferred' : null;
}

export function renewalsOf(component: Component, end: WheelEnd, records: Records): Renewal[] {
  const renewals: Renewal[] = [];
  const ordered = [...(records.services.get(end.name) ?? [])].sort(
    (a, b) => inOrder(a, b) || (String(a.row['service_id']) < String(b.row['service_id']) ? -1 : 1),
  );
  for (const service of ordered) {
    const how = renews(component, service, end, records.procedures);
    if (how === null) continue;
    const last = renewals.at(-1);
    if (!last || !sameMoment(last, service))
      renewals.push({ ...service, rows: [service.row], inferred: how === 'inferred' });
    else if (last.inferred && how === 'listed')
      renewals[renewals.length - 1] = { ...service, rows: [service.row, ...last.rows], inferred: false };
    else renewals[renewals.length - 1] = { ...last, rows: [...last.rows, service.row] };
  }
  return renewals;
}

export const isFastenerLoss = (row: Row) =>
  row['wheel_lost_by'] === 'fastener' && (row['mode'] === 'wheel-lost' || row['wheel_lost'] === 'yes');

export const failsComponent = (component: Component, row: Row) =>
  (components[component].modes as readonly string[]).includes(String(row['mode']));

/** The renewal that repaired a failure: the linked one, else the first 0 to 30 days and 0 to 3,000 miles after it. */
export function repairOf(failure: Happening, renewals: readonly Renewal[], records: Records): Renewal | undefined {
  const link = failure.row['repair_service_id'];
  if (records.jobs.some((row) => link && row['service_id'] === link))
    return renewals.find(({ rows }) => rows.some((row) => row['service_id'] === link));
  return renewals.find(
    (renewal) =>
      renewal.day >= failure.day &&
      renewal.day - failure.day <= 30 &&
      renewal.miles >= failure.miles &&
      renewal.miles - failure.miles <= 3_000,
  );
}
