import { newtonMetresPerFtLb } from '../../../shared/units.ts';
import type { FailureRow, ServiceRow } from '../rows.ts';
import { column, listed, unused, worded, type Column, type Listing } from './listing.ts';
import type { Paper } from './mess.ts';
import { kerbSpelling, type RolesOf } from './place-spellings.ts';
import { plainSteps, stepColumns, torqueColumns } from './service-columns.ts';
import { daysLater, namedMonth } from './spelled.ts';

type Any = ServiceRow | FailureRow;
const yes = { yes: 'TRUE', no: 'FALSE' };

const heading = (rolesOf: RolesOf): Column<Any>[] => [
  column('Veh', 'unit_id', (row) => row.unit_id),
  column('Wheel', 'position', (row) => kerbSpelling(row, rolesOf(row))),
];
const told = {
  dates: {},
  numbers: { decimal: 'point' as const },
  blanks: ['not recorded', '--'],
  positions: { driverSits: 'right' as const },
};

/** A yard where one drives on the left: nearside and offside; months by name, newton metres, thousandths. */
export function dunhollowJobs(papers: readonly Paper<ServiceRow>[], rolesOf: RolesOf): Listing<ServiceRow> {
  const columns: Column<ServiceRow>[] = [
    column('Line ID', 'service_id', (row) => row.service_id),
    column('Job Card No', 'order_id', (row) => row.order_id),
    ...heading(rolesOf),
    unused('Date In', (row) => namedMonth(daysLater(row.date, -3))),
    column('Date Work Done', 'date', (row) => namedMonth(row.date), { day: 'repair' }),
    column('Mileage', 'miles', (row) => row.miles, { unit: 'mi' }),
    column('Depot', 'shop', (row) => row.shop),
    worded('Where done', 'site', { shop: 'internal', vendor: 'contractor', roadside: 'on road' }, (row) => row.site),
    column('Fitter', 'technician_key', (row) => row.technician_key),
    worded(
      'Reason for job',
      'reason',
      {
        failure: 'defect',
        planned: 'planned maint',
        'brake-work': 'reline',
        'inspection-finding': 'found at inspection',
        comeback: 'repeat repair',
        other: 'misc',
      },
      (row) => row.reason,
    ),
    listed(
      'Parts Used',
      'replaced',
      {
        seal: 'oil seal',
        bearings: 'bearing set',
        gasket: 'gasket',
        spacer: 'spacer',
        lock: 'lock washer',
        hub: 'hub unit',
        hubcap: 'oil cap',
        lubricant: 'oil',
        lining: 'linings',
        sleeve: 'wear ring',
      },
      ' / ',
      (row) => row.replaced,
    ),
    column('Batch', 'seal_lot', (row) => row.seal_lot),
    worded(
      'Hub System',
      'hub_build',
      { adjusted: 'adjustable', spacer: 'spacer hub', unitized: 'sealed unit' },
      (r) => r.hub_build,
    ),
    worded('Nut', 'nut_system', { double: 'double nut', single: 'single nut' }, (row) => row.nut_system),
    worded('Hub Metal', 'hub_material', { iron: 'cast iron', aluminium: 'alloy' }, (row) => row.hub_material),
    worded(
      'Lubricant',
      'lubricant',
      { oil: 'hub oil', 'semi-fluid': 'liquid grease', packed: 'packed grease' },
      (r) => r.lubricant,
    ),
    column('Grade', 'lubricant_grade', (row) => row.lubricant_grade),
    worded('Level', 'fill_level', { ok: 'correct', low: 'under', over: 'overfilled' }, (row) => row.fill_level),
    ...torqueColumns({
      ...{ seating: 'Torque Seating Nm', inner: 'Torque Inner Nm', outer: 'Torque Outer Nm' },
      cell: (value) => (value === null ? null : Number((value * newtonMetresPerFtLb).toPrecision(14))),
      unit: 'N·m',
    }),
    worded('Backed Off', 'nut_backed_off', yes, (row) => row.nut_backed_off),
    column(
      'EP (thou)',
      'end_play_in',
      (row) => (row.end_play_in === null ? null : Math.round(row.end_play_in * 1e4) / 10),
      {
        unit: 'thousandths',
      },
    ),
    worded('EP Measured', 'end_play_measured', yes, (row) => row.end_play_measured),
    ...stepColumns(plainSteps, (text) => text.replace('lubricant', 'lube'), { done: 'OK', skipped: 'not done' }),
    listed('Deviations', 'deviations', {}, ', ', (row) => row.deviations),
    worded('Checklist Complete', 'checklist_complete', yes, (row) => row.checklist_complete),
    column('Remarks', 'comment', (row) => row.comment),
  ];
  return { columns, papers, told: { ...told, source: 'Dunhollow, job cards', feeds: { table: 'services' } } };
}

/** Its defects have no numbers. */
export function dunhollowDefects(papers: readonly Paper<FailureRow>[], rolesOf: RolesOf): Listing<FailureRow> {
  const columns: Column<FailureRow>[] = [
    ...heading(rolesOf),
    column('Date Found', 'date', (row) => namedMonth(row.date)),
    column('Mileage', 'miles', (row) => row.miles, { unit: 'mi' }),
    worded(
      'Defect',
      'mode',
      {
        'seal-inner': 'inner seal leak',
        'seal-outer': 'outer seal leak',
        'seal-unknown': 'oil seal leaking|weeping seal',
        'gasket-hubcap': 'hub cap gasket',
        'gasket-flange': 'axle flange gasket',
        vent: 'vent plug',
        'lubricant-low': 'low oil',
        'lubricant-metal': 'metallic oil',
        bearing: 'bearing pitted|bearing seized',
        'end-play': 'excess end play',
        'hot-hub': 'hub hot',
        'wheel-lost': 'lost wheel',
      },
      (row) => row.mode,
    ),
    worded(
      'Detected by',
      'found_by',
      {
        driver: 'driver',
        pm: 'inspection',
        annual: 'annual test',
        roadside: 'roadside check',
        'road-call': 'breakdown',
        shop: 'workshop',
      },
      (row) => row.found_by,
    ),
    column('Repair Line ID', 'repair_service_id', (row) => row.repair_service_id),
    worded('Contaminated Lining', 'lining_contaminated', yes, (row) => row.lining_contaminated),
    worded('Linings Replaced', 'linings_replaced', yes, (row) => row.linings_replaced),
    worded('Wheel Lost', 'wheel_lost', yes, (row) => row.wheel_lost),
    worded('Lost Cause', 'wheel_lost_by', { bearing: 'bearing', fastener: 'wheel nuts' }, (row) => row.wheel_lost_by),
    worded('Taken Out of Service', 'out_of_service', yes, (row) => row.out_of_service),
    column(
      'Downtime (days)',
      'downtime_hours',
      (row) => (row.downtime_hours === null ? null : row.downtime_hours / 24),
      { unit: 'd' },
    ),
    column('Cost', 'cost', (row) => row.cost),
    listed('Strip-down', 'teardown_deviations', {}, ', ', (row) => row.teardown_deviations),
    column('Remarks', 'comment', (row) => row.comment),
  ];
  return {
    columns,
    papers,
    told: { ...told, source: 'Dunhollow, defects', feeds: { table: 'failures' }, made: 'failure_id' },
  };
}
