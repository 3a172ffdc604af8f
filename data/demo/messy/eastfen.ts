import type { FailureRow, ServiceRow } from '../rows.ts';
import { column, listed, worded, type Cell, type Column, type Listing } from './listing.ts';
import type { Paper } from './mess.ts';
import { codeSpelling, inKilometres, type RolesOf } from './place-spellings.ts';
import { plainSteps, stepColumns, torqueColumns } from './service-columns.ts';
import { kilometres, stamped } from './spelled.ts';

type Any = ServiceRow | FailureRow;
const yes = { yes: 'true', no: 'false' };

/** A number loses its leading zeros where it is kept as one. */
const numbered = (unitId: string): Cell => (/^\d+$/.test(unitId) ? Number(unitId) : unitId);

const heading = (rolesOf: RolesOf): Column<Any>[] => [
  column('vehicle.no', 'unit_id', (row) => numbered(row.unit_id), { padTo: 4 }),
  column('vehicle.wheel', 'position', (row) => codeSpelling(row, rolesOf(row))),
  column('at', 'date', (row) => stamped(row.date)),
  column('odometer.value', 'miles', (row) => (inKilometres(row) ? kilometres(row.miles) : row.miles), { unit: 'mi' }),
  { ...column<Any>('odometer.unit', [], (row) => (inKilometres(row) ? 'km' : 'mi')), saysUnit: true },
];
const told = { dates: {}, numbers: { decimal: 'point' as const }, blanks: ['null', 'unknown'] };
const words = (all: string): Readonly<Record<string, string>> =>
  Object.fromEntries(all.split(', ').map((pair) => pair.split(' = ') as [string, string]));

/** Objects a line, each row saying the unit of its miles; numbers of tractors without their zeros. */
export function eastfenJobs(papers: readonly Paper<ServiceRow>[], rolesOf: RolesOf): Listing<ServiceRow> {
  const columns: Column<ServiceRow>[] = [
    column('job.line', 'service_id', (row) => row.service_id),
    column('job.order', 'order_id', (row) => row.order_id),
    ...heading(rolesOf),
    column('job.shop', 'shop', (row) => row.shop),
    worded('job.site', 'site', words('shop = inhouse, vendor = dealer, roadside = on_road'), (row) => row.site),
    column('job.tech', 'technician_key', (row) => row.technician_key),
    worded(
      'job.reason',
      'reason',
      words(
        'failure = unscheduled, planned = preventive, brake-work = brakes, inspection-finding = inspection, comeback = comeback, other = other',
      ),
      (row) => row.reason,
    ),
    listed(
      'job.parts',
      'replaced',
      words(
        'seal = hub seal, bearings = bearing, gasket = flange gasket, spacer = spcr, lock = keeper, hub = hub assembly, hubcap = hubcap, lubricant = lube, lining = shoes, sleeve = wear ring',
      ),
      ', ',
      (row) => row.replaced,
    ),
    column('job.seal_lot', 'seal_lot', (row) => row.seal_lot),
    worded(
      'hub.build',
      'hub_build',
      words('adjusted = std, spacer = preadjusted, unitized = hub unit'),
      (row) => row.hub_build,
    ),
    worded('hub.nuts', 'nut_system', words('double = dual, single = single'), (row) => row.nut_system),
    column('hub.material', 'hub_material', (row) => row.hub_material),
    worded('hub.lubricant', 'lubricant', words('oil = 80w-90, semi-fluid = 000, packed = ep2'), (row) => row.lubricant),
    column('hub.lubricant_grade', 'lubricant_grade', (row) => row.lubricant_grade),
    worded(
      'hub.fill_level',
      'fill_level',
      words('ok = full, low = underfilled, over = overfilled'),
      (row) => row.fill_level,
    ),
    ...torqueColumns({
      ...{ seating: 'torque.seating_ftlb', inner: 'torque.inner_ftlb', outer: 'torque.outer_ftlb' },
      ...{ cell: (value) => value, unit: 'lbf·ft' },
    }),
    worded('hub.backed_off', 'nut_backed_off', yes, (row) => row.nut_backed_off),
    column('hub.end_play_in', 'end_play_in', (row) => row.end_play_in, { unit: 'in' }),
    worded('hub.end_play_measured', 'end_play_measured', yes, (row) => row.end_play_measured),
    ...stepColumns(plainSteps, (text) => `steps.${text.replaceAll(' ', '_')}`, { done: 'done', skipped: 'skipped' }),
    listed('job.deviations', 'deviations', {}, ' | ', (row) => row.deviations),
    worded('job.checklist_complete', 'checklist_complete', yes, (row) => row.checklist_complete),
    column('job.text', 'comment', (row) => row.comment),
  ];
  return { columns, papers, told: { ...told, source: 'Eastfen, jobs', feeds: { table: 'services' } } };
}

export function eastfenFailures(papers: readonly Paper<FailureRow>[], rolesOf: RolesOf): Listing<FailureRow> {
  const columns: Column<FailureRow>[] = [
    column('case', 'failure_id', (row) => row.failure_id),
    ...heading(rolesOf),
    worded(
      'found',
      'found_by',
      words('driver = dvir, pm = pm-a, annual = annual, roadside = dot, road-call = roadcall, shop = in shop'),
      (r) => r.found_by,
    ),
    worded(
      'failure_mode',
      'mode',
      words(
        'seal-inner = id leak, seal-outer = od leak, seal-unknown = seal leak, gasket-hubcap = hubcap gasket, gasket-flange = axle gasket, vent = vent, lubricant-low = no oil, lubricant-metal = metallic, bearing = bad bearing, end-play = loose bearing, hot-hub = hot, wheel-lost = wheel-off',
      ),
      (row) => row.mode,
    ),
    column('fixed_by_line', 'repair_service_id', (row) => row.repair_service_id),
    worded('lining.contaminated', 'lining_contaminated', yes, (row) => row.lining_contaminated),
    worded('lining.replaced', 'linings_replaced', yes, (row) => row.linings_replaced),
    worded('wheel.lost', 'wheel_lost', yes, (row) => row.wheel_lost),
    column('wheel.lost_by', 'wheel_lost_by', (row) => row.wheel_lost_by),
    worded('out_of_service', 'out_of_service', yes, (row) => row.out_of_service),
    column('downtime_hours', 'downtime_hours', (row) => row.downtime_hours, { unit: 'h' }),
    column('cost', 'cost', (row) => row.cost),
    listed('teardown', 'teardown_deviations', {}, ' | ', (row) => row.teardown_deviations),
    column('text', 'comment', (row) => row.comment),
  ];
  return { columns, papers, told: { ...told, source: 'Eastfen, failures', feeds: { table: 'failures' } } };
}
