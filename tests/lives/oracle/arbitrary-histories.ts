// Whole fleets of independent units, one rebuild each, so that a comparison covers hundreds of wheel ends.
import fc from 'fast-check';
import { failureModes, hubBuilds, lubricants, partClasses, serviceReasons, steps } from '../../../shared/vocabulary.ts';
import type { Fleet, Row } from '../record-tables-in-engine.ts';
import { judgedCodes } from './judged-deviations.ts';
import { spoiled, troubles } from './troubles.ts';

const firstDay = Date.UTC(2019, 0, 1);
const lastDay = 1_500;
export const isoDay = (day: number) => new Date(firstDay + day * 86_400_000).toISOString().slice(0, 10);

const oneOf = fc.constantFrom;
const sometimes = <T>(arbitrary: fc.Arbitrary<T>, of: number, blankOf: number): fc.Arbitrary<T | null> =>
  fc.oneof({ weight: of, arbitrary }, { weight: blankOf, arbitrary: fc.constant(null) });
const list = (values: readonly string[], maxLength: number) =>
  fc.uniqueArray(oneOf(...values), { maxLength }).map((words) => (words.length > 0 ? words.join(';') : null));

interface Unit {
  readonly roles: readonly string[];
  readonly acquired: string | null;
  readonly startMiles: number | null;
  readonly startDay: number | null;
  readonly milesADay: number;
  readonly out: number | null;
  readonly outMilesBlank: boolean;
  readonly readings: readonly number[];
  /** The few days on which things happen, so that they collide. */
  readonly days: readonly number[];
}

const unit: fc.Arbitrary<Unit> = fc.record({
  roles: oneOf(['steer', 'drive'], ['trailer', 'trailer'], ['steer'], ['steer', 'pusher', 'drive']),
  acquired: oneOf('new', 'used', null),
  startMiles: sometimes(oneOf(0, 12, 1_000, 1_001, 2_999, 250_000), 9, 1),
  startDay: sometimes(oneOf(0, 0, 90), 9, 1),
  milesADay: oneOf(3, 50, 101, 297, 400),
  out: sometimes(fc.integer({ min: 150, max: lastDay }), 1, 3),
  outMilesBlank: oneOf(false, false, false, true),
  readings: fc.uniqueArray(fc.integer({ min: 0, max: lastDay }), { maxLength: 4 }),
  days: fc.array(fc.integer({ min: 0, max: lastDay }), { minLength: 3, maxLength: 6 }),
});

interface Place {
  readonly axle: number;
  readonly side: string;
  readonly day: number;
  readonly shift: number;
  readonly blankMiles: boolean;
}

const place: fc.Arbitrary<Place> = fc.record({
  axle: fc.oneof({ weight: 30, arbitrary: oneOf(0, 0, 0, 1, 2) }, { weight: 1, arbitrary: fc.constant(6) }),
  side: oneOf('left', 'right'),
  day: fc.nat(5),
  shift: fc.oneof(oneOf(0, 0, 0, 1, 10, 30, 31, -10), fc.integer({ min: -60, max: 60 })),
  blankMiles: oneOf(false, false, false, false, false, false, true),
});

const job = fc.record({
  replaced: fc.oneof(
    fc.constant('seal'),
    fc.constant('seal;gasket;lubricant'),
    fc.constant('bearings'),
    list(partClasses, 4),
  ),
  reason: sometimes(oneOf(...serviceReasons), 5, 1),
  hub_build: sometimes(oneOf(...hubBuilds), 9, 1),
  order_id: sometimes(oneOf('w1', 'w2', 'w3'), 1, 2),
});

const setting = fc.record({
  shop: sometimes(oneOf('North', 'South', 'East'), 5, 1),
  site: sometimes(oneOf('shop', 'vendor', 'roadside'), 2, 1),
  technician_key: sometimes(oneOf('a', 'b'), 1, 1),
  seal_lot: sometimes(oneOf('L1', 'L2'), 1, 1),
  nut_system: sometimes(oneOf('double', 'single'), 4, 1),
  hub_material: sometimes(oneOf('iron', 'aluminium'), 1, 1),
  lubricant: sometimes(oneOf(...lubricants), 4, 1),
});

const workmanship = fc.record({
  fill_level: sometimes(oneOf('ok', 'low', 'over'), 1, 1),
  inner_torque_ftlb: sometimes(oneOf(50, 249, 250, 300, 350, 351), 1, 1),
  outer_torque_ftlb: sometimes(oneOf(199, 200, 250, 300, 301, 350, 400, 401), 1, 1),
  nut_backed_off: sometimes(oneOf('yes', 'no'), 1, 1),
  end_play_in: sometimes(oneOf(0, 0.0005, 0.001, 0.003, 0.005, 0.006, 0.012), 2, 1),
  end_play_measured: sometimes(oneOf('yes', 'no'), 1, 1),
  deviations: list(judgedCodes, 3),
  checklist_complete: sometimes(oneOf('yes', 'no'), 1, 1),
  ...Object.fromEntries(steps.map((step) => [step, sometimes(oneOf('done', 'skipped'), 1, 1)])),
});

const failure = fc.record({
  mode: fc.oneof(oneOf('seal-inner', 'seal-outer', 'seal-unknown', 'bearing', 'gasket-flange'), oneOf(...failureModes)),
  wheel_lost_by: sometimes(oneOf('fastener', 'bearing'), 1, 2),
  lining_contaminated: sometimes(oneOf('yes', 'no'), 2, 1),
});

const check = fc.record({
  checked: oneOf('yes', 'yes', 'yes', 'no'),
  leak: sometimes(oneOf(0, 0, 0, 1, 2, 3), 5, 1),
});

const history = fc.record({
  unit,
  trouble: troubles,
  services: fc.array(fc.tuple(place, job, setting, sometimes(workmanship, 2, 1), oneOf(false, false, true)), {
    maxLength: 10,
    size: 'max',
  }),
  failures: fc.array(fc.tuple(place, failure, sometimes(fc.nat(12), 1, 1)), { maxLength: 5, size: 'max' }),
  checks: fc.array(fc.tuple(place, check), { maxLength: 5, size: 'max' }),
});
type History = typeof history extends fc.Arbitrary<infer T> ? T : never;

const daysOf = ({ startDay, out }: Unit) => ({ first: startDay ?? 0, last: out ?? lastDay });

function rowAt(id: string, from: Unit, where: Place): Row {
  const { first, last } = daysOf(from);
  const day = Math.min(Math.max((from.days[where.day % from.days.length] as number) + where.shift, first), last);
  const axle = where.axle === 6 ? 7 : (where.axle % from.roles.length) + 1;
  return {
    unit_id: id,
    axle,
    side: where.side,
    date: isoDay(day),
    miles: where.blankMiles ? null : milesOn(from, day),
  };
}

const milesOn = (from: Unit, day: number) => (from.startMiles ?? 40_000) + from.milesADay * (day - daysOf(from).first);

/** The rows of one unit; `mateToo` puts the same job on the other side as well. */
function rowsOfHistory(drawn: History, index: number): Required<Fleet> {
  const { unit: from, services, failures, checks } = drawn;
  const id = `0${index}`;
  const { last } = daysOf(from);
  const jobs = services.flatMap(([where, work, how, care, mateToo]) => {
    const row = { ...rowAt(id, from, where), ...work, ...how, ...care };
    const order = work.order_id === null ? null : `${id}-${work.order_id}`;
    const one: Row = { ...row, order_id: order };
    const other = { ...one, side: one['side'] === 'left' ? 'right' : 'left' };
    return mateToo ? [one, other] : [one];
  });
  const numbered = jobs.map((row, at): Row => ({ service_id: `${id}-s${at}`, ...row }));
  const rows = {
    units: [
      {
        unit_id: id,
        axle_roles: from.roles.join(index % 2 === 0 ? ';' : ' '),
        acquired: from.acquired,
        duty: index % 3 === 0 ? 'linehaul' : null,
        in_service_date: from.startDay === null ? null : isoDay(from.startDay),
        in_service_miles: from.startMiles,
        ...(from.out === null
          ? {}
          : { out_date: isoDay(last), out_miles: from.outMilesBlank ? null : milesOn(from, last), out_reason: 'sold' }),
      },
    ],
    readings: from.readings
      .filter((day) => day >= daysOf(from).first && day <= last)
      .map((day) => ({ unit_id: id, date: isoDay(day), miles: milesOn(from, day) })),
    services: numbered,
    failures: failures.map(([where, what, link], at): Row => ({
      failure_id: `${id}-f${at}`,
      ...rowAt(id, from, where),
      ...what,
      repair_service_id: link === null || !numbered[link] ? null : (numbered[link]['service_id'] as string),
    })),
    inspections: checks.map(([where, what], at): Row => ({
      inspection_id: `${id}-i${at}`,
      ...rowAt(id, from, where),
      ...what,
    })),
  };
  return spoiled(rows, drawn.trouble, isoDay);
}

export interface Drawn {
  readonly fleet: Fleet;
  readonly window: { from?: string; to?: string };
}

const windows: readonly Drawn['window'][] = [
  {},
  {},
  { from: isoDay(0), to: isoDay(lastDay) },
  { from: isoDay(400), to: isoDay(1_200) },
  { from: isoDay(300) },
  { to: isoDay(900) },
];

/** A fleet of so many unlike units, with or without its units table, and the window it was observed in. */
export const drawnFleet = (size: number): fc.Arbitrary<Drawn> =>
  fc
    .record({
      histories: fc.array(history, { minLength: size, maxLength: size, size: 'max' }),
      unitsTable: oneOf(true, true, true, false),
      window: oneOf(...windows),
    })
    .map(({ histories, unitsTable, window }) => {
      const all = histories.map(rowsOfHistory);
      const gather = (table: keyof Fleet) => all.flatMap((rows) => rows[table]);
      return {
        window,
        fleet: {
          units: unitsTable ? gather('units') : [],
          readings: gather('readings'),
          services: gather('services'),
          failures: gather('failures'),
          inspections: gather('inspections'),
        },
      };
    });
