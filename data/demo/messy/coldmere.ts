import type { FailureRow, ServiceRow } from '../rows.ts';
import { column, unused, worded, type Cell, type Column, type Listing } from './listing.ts';
import type { Paper } from './mess.ts';
import { combinationSpelling, inKilometres, type RolesOf } from './place-spellings.ts';
import { plainSteps, stepColumns, torqueColumns } from './service-columns.ts';
import { daysLater, kilometres } from './spelled.ts';

type Any = ServiceRow | FailureRow;
const ahead = 3;
const yes = { yes: 'Yes', no: 'No' };

const heading = (rolesOf: RolesOf): Column<Any>[] => [
  column('Equip', 'unit_id', (row) => row.unit_id),
  column('Location on unit', 'position', (row) => combinationSpelling(ahead)(row, rolesOf(row))),
];
const meter: readonly Column<Any>[] = [
  column('Meter', 'miles', (row) => (inKilometres(row) ? kilometres(row.miles) : row.miles), { unit: 'mi' }),
  {
    ...unused<Any>('Meter UoM', (row) => (row.miles === null ? null : inKilometres(row) ? 'KM' : 'MI')),
    saysUnit: true,
  },
];

const flag =
  (part: string) =>
  (row: ServiceRow): Cell =>
    row.replaced.split(';').includes(part) ? 'X' : null;
const flagged = {
  seal: 'Seal new',
  bearings: 'Bearings new',
  gasket: 'Gasket changed',
  spacer: 'Spacer changed',
  lock: 'Lock ring changed',
  hub: 'Hub assy changed',
  hubcap: 'Hub cap changed',
  lubricant: 'Lube changed',
  lining: 'Lining changed',
  sleeve: 'Wear sleeve changed',
};

const told = {
  dates: {},
  numbers: { decimal: 'point' as const },
  blanks: ['?', 'n/a'],
  positions: { axlesAhead: ahead },
};

/** A workbook: a column for each part, thousandths, axles of trailers counted through the combination, miles or kilometres. */
export function coldmereWork(papers: readonly Paper<ServiceRow>[], rolesOf: RolesOf): Listing<ServiceRow> {
  const columns: Column<ServiceRow>[] = [
    column('Line', 'service_id', (row) => row.service_id),
    column('WO', 'order_id', (row) => row.order_id),
    ...heading(rolesOf),
    column('Date done', 'date', (row) => ({ day: row.date }), { day: 'repair' }),
    unused('Date invoiced', (row) => ({ day: daysLater(row.date, 5) })),
    ...meter,
    column('Shop', 'shop', (row) => row.shop),
    worded('Site', 'site', { shop: 'yard', vendor: 'sublet', roadside: 'road' }, (row) => row.site),
    worded(
      'Job reason',
      'reason',
      {
        failure: 'fail',
        planned: 'campaign',
        'brake-work': 'brakes',
        'inspection-finding': 'insp finding',
        comeback: 'redo',
        other: 'misc',
      },
      (row) => row.reason,
    ),
    ...Object.entries(flagged).map(([part, header]): Column<ServiceRow> => ({
      ...column<ServiceRow>(header, 'replaced', flag(part), { joined: 'list' }),
      part: { words: { X: part } },
    })),
    column('Seal batch', 'seal_lot', (row) => row.seal_lot),
    worded(
      'Hub build',
      'hub_build',
      { adjusted: 'manual', spacer: 'pre-adjusted', unitized: 'cartridge' },
      (r) => r.hub_build,
    ),
    worded('Nut type', 'nut_system', { double: 'jam nut', single: 'one piece' }, (row) => row.nut_system),
    worded('Hub material', 'hub_material', { iron: 'ductile', aluminium: 'AL' }, (row) => row.hub_material),
    worded(
      'Lubricant',
      'lubricant',
      { oil: 'oil bath', 'semi-fluid': 'SFG', packed: 'hard grease' },
      (r) => r.lubricant,
    ),
    column('Viscosity', 'lubricant_grade', (row) => row.lubricant_grade),
    worded('Fill', 'fill_level', { ok: 'OK', low: 'short', over: 'too full' }, (row) => row.fill_level),
    ...torqueColumns({
      ...{ seating: 'Seating torque', inner: 'Inner torque', outer: 'Outer torque' },
      ...{ cell: (value) => value, unit: 'lbf·ft' },
    }),
    worded('Backed off', 'nut_backed_off', yes, (row) => row.nut_backed_off),
    column(
      'End play thou',
      'end_play_in',
      (r) => (r.end_play_in === null ? null : Math.round(r.end_play_in * 1e4) / 10),
      {
        unit: 'thousandths',
      },
    ),
    worded('End play measured', 'end_play_measured', yes, (row) => row.end_play_measured),
    ...stepColumns(plainSteps, (text) => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`, {
      done: 'ok',
      skipped: 'missed',
    }),
    column('Deviations', 'deviations', (row) => row.deviations),
    worded('Checklist complete', 'checklist_complete', yes, (row) => row.checklist_complete),
    column('Notes', 'comment', (row) => row.comment),
  ];
  return {
    columns,
    papers,
    told: { ...told, source: 'Coldmere, work orders', where: { sheet: 'Work orders' }, feeds: { table: 'services' } },
  };
}

export function coldmereFailures(papers: readonly Paper<FailureRow>[], rolesOf: RolesOf): Listing<FailureRow> {
  const columns: Column<FailureRow>[] = [
    column('Case', 'failure_id', (row) => row.failure_id),
    ...heading(rolesOf),
    column('Date found', 'date', (row) => ({ day: row.date })),
    ...meter,
    worded(
      'How found',
      'found_by',
      { driver: 'driver', pm: 'PM', annual: 'annual', roadside: 'DOT', 'road-call': 'roadcall', shop: 'shop' },
      (row) => row.found_by,
    ),
    worded(
      'What failed',
      'mode',
      {
        'seal-inner': 'SL-ID',
        'seal-outer': 'SL-OD',
        'seal-unknown': 'SL-U',
        'gasket-hubcap': 'GK-HC',
        'gasket-flange': 'GK-AF',
        vent: 'VT',
        'lubricant-low': 'LB-LOW',
        'lubricant-metal': 'LB-C',
        bearing: 'BR',
        'end-play': 'EP',
        'hot-hub': 'HH',
        'wheel-lost': 'WO',
      },
      (row) => row.mode,
    ),
    column('Fixed on line', 'repair_service_id', (row) => row.repair_service_id),
    worded('Lining contaminated', 'lining_contaminated', yes, (row) => row.lining_contaminated),
    worded('Lining replaced', 'linings_replaced', yes, (row) => row.linings_replaced),
    worded('Wheel lost', 'wheel_lost', yes, (row) => row.wheel_lost),
    worded('Wheel lost by', 'wheel_lost_by', { bearing: 'bearing', fastener: 'fastener' }, (row) => row.wheel_lost_by),
    worded('Out of service', 'out_of_service', yes, (row) => row.out_of_service),
    column('Downtime h', 'downtime_hours', (row) => row.downtime_hours, { unit: 'h' }),
    column('Cost', 'cost', (row) => row.cost),
    column('Teardown', 'teardown_deviations', (row) => row.teardown_deviations),
    column('Notes', 'comment', (row) => row.comment),
  ];
  return {
    columns,
    papers,
    told: { ...told, source: 'Coldmere, breakdowns', where: { sheet: 'Breakdowns' }, feeds: { table: 'failures' } },
  };
}
