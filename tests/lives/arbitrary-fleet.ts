import fc from 'fast-check';
import type { Fleet, Row } from './record-tables-in-engine.ts';

const firstDay = Date.UTC(2019, 0, 1);
const isoDay = (day: number) => new Date(firstDay + day * 86_400_000).toISOString().slice(0, 10);
const blankOr = <T>(values: readonly T[], blankWeight = 1) =>
  fc.oneof({ weight: blankWeight, arbitrary: fc.constant(null) }, { weight: 4, arbitrary: fc.constantFrom(...values) });

const days = 1500;

/** A unit's odometer: a steady pace, so that any day has one mileage and rows agree whatever their order. */
interface Run {
  readonly unitId: string;
  readonly roles: readonly string[];
  readonly startMiles: number;
  readonly milesADay: number;
}

const milesOn = (run: Run, day: number) => run.startMiles + run.milesADay * day;

const roles = fc.constantFrom<readonly string[]>(['steer', 'drive'], ['trailer', 'trailer'], ['steer']);
const runs = fc
  .array(
    fc.record({ roles, startMiles: fc.integer({ min: 0, max: 3_000 }), milesADay: fc.integer({ min: 5, max: 400 }) }),
    { minLength: 1, maxLength: 3 },
  )
  .map((list) => list.map((run, index): Run => ({ ...run, unitId: `00${index + 1}` })));

const place = (run: Run, day: number, axle: number, side: string, blankMiles: boolean): Row => ({
  unit_id: run.unitId,
  axle: (axle % run.roles.length) + 1,
  side,
  date: isoDay(day),
  miles: blankMiles ? null : milesOn(run, day),
});

const event = fc.record({
  run: fc.nat(2),
  day: fc.integer({ min: 0, max: days }),
  axle: fc.nat(1),
  side: fc.constantFrom('left', 'right'),
  blankMiles: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
});

const service = fc.record({
  replaced: fc
    .subarray(['seal', 'bearings', 'gasket', 'spacer', 'hub', 'lining', 'lubricant'])
    .map((parts) => (parts.length > 0 ? parts.join(';') : null)),
  reason: blankOr(['failure', 'planned', 'brake-work', 'inspection-finding', 'comeback', 'other']),
  hub_build: blankOr(['adjusted', 'spacer', 'unitized']),
  order_id: blankOr(['w1', 'w2', 'w3'], 4),
});

const failure = fc.record({
  mode: fc.constantFrom(
    'seal-inner',
    'seal-unknown',
    'seal-outer',
    'bearing',
    'hot-hub',
    'gasket-hubcap',
    'vent',
    'wheel-lost',
  ),
  wheel_lost_by: fc.constantFrom(null, null, 'fastener', 'bearing'),
  lining_contaminated: blankOr(['yes', 'no']),
});

/** A repair some days after a failure, linked to it or not; the stuff real episodes are made of. */
const repair = fc.record({ delay: fc.integer({ min: -5, max: 40 }), linked: fc.boolean(), sameDay: fc.boolean() });

const clampDay = (day: number) => Math.min(Math.max(day, 0), days);

/**
 * Record tables that obey the contract's spellings but nothing else: failures with and without
 * repairs, linked backwards, on the same day, mates on one order, blanks everywhere.
 */
export const arbitraryFleet: fc.Arbitrary<Fleet> = fc
  .record({
    runs,
    acquired: fc.array(fc.constantFrom('new', 'used', null), { minLength: 3, maxLength: 3 }),
    outAfter: fc.array(fc.option(fc.integer({ min: 200, max: days }), { freq: 3 }), { minLength: 3, maxLength: 3 }),
    services: fc.array(fc.tuple(event, service), { maxLength: 14 }),
    failures: fc.array(fc.tuple(event, failure, fc.option(fc.tuple(repair, service))), { maxLength: 8 }),
    checks: fc.array(
      fc.tuple(
        event,
        fc.record({ checked: fc.constantFrom('yes', 'yes', 'no'), leak: fc.constantFrom(null, 0, 0, 1, 2) }),
      ),
      { maxLength: 8 },
    ),
  })
  .map(({ runs: fleet, acquired, outAfter, ...events }) => {
    const runOf = (index: number) => fleet[index % fleet.length] as Run;
    const outOf = (run: Run) => outAfter[fleet.indexOf(run)] ?? null;
    const services: Row[] = [];
    const failures: Row[] = [];
    const addService = (at: Row, more: Row): string => {
      const id = `s${services.length + 1}`;
      services.push({ service_id: id, ...at, ...more });
      return id;
    };
    for (const [at, more] of events.services)
      addService(place(runOf(at.run), at.day, at.axle, at.side, at.blankMiles), more);
    for (const [at, more, fix] of events.failures) {
      const run = runOf(at.run);
      const row: Row = {
        failure_id: `f${failures.length + 1}`,
        ...place(run, at.day, at.axle, at.side, at.blankMiles),
        ...more,
      };
      if (fix) {
        const [{ delay, linked, sameDay }, job] = fix;
        const id = addService(place(run, clampDay(sameDay ? at.day : at.day + delay), at.axle, at.side, false), job);
        if (linked) row['repair_service_id'] = id;
      }
      failures.push(row);
    }
    const inspections = events.checks.map(([at, more], index): Row => ({
      inspection_id: `i${index + 1}`,
      ...place(runOf(at.run), at.day, at.axle, at.side, at.blankMiles),
      ...more,
    }));
    const units = fleet.map((run, index): Row => {
      const out = outOf(run);
      return {
        unit_id: run.unitId,
        axle_roles: run.roles.join(';'),
        acquired: acquired[index] ?? null,
        in_service_date: isoDay(0),
        in_service_miles: run.startMiles,
        ...(out === null ? {} : { out_date: isoDay(out), out_miles: milesOn(run, out), out_reason: 'sold' }),
      };
    });
    const readings = fleet.flatMap((run) => {
      const out = outOf(run) ?? days;
      return [0, Math.floor(out / 2), out].map((day): Row => ({
        unit_id: run.unitId,
        date: isoDay(day),
        miles: milesOn(run, day),
      }));
    });
    return { units, readings, services, failures, inspections };
  });

/** Windows inside, around and beyond the days of the fleet; blank = by the event tables. */
export const arbitraryWindow = fc.constantFrom<{ from?: string; to?: string }>(
  {},
  { from: isoDay(0), to: isoDay(days) },
  { from: isoDay(400), to: isoDay(1_200) },
);
