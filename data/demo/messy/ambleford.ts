import type { FailureRow, ServiceRow } from '../rows.ts';
import { column, listed, unused, worded, type Cell, type Column, type Listing } from './listing.ts';
import type { Paper } from './mess.ts';
import { yardSpelling, type RolesOf } from './place-spellings.ts';
import { scattered, stray } from './row-messes.ts';
import { plainSteps, stepColumns, torqueColumns } from './service-columns.ts';
import { daysLater, grouped, monthFirst } from './spelled.ts';

/** One list holds repairs, failures, and work that is none of a wheel end. */
type Entry = (ServiceRow & { readonly kind: 'REPAIR' }) | (FailureRow & { readonly kind: 'FAILURE' });

const entries = (papers: readonly Paper<unknown>[], kind: Entry['kind']): Paper<Entry>[] =>
  papers.map((paper) => ({ ...paper, row: { ...(paper.row as object), kind } as Entry, tidy: paper.tidy as Entry }));

const repair =
  (cell: (row: ServiceRow) => Cell) =>
  (row: Entry): Cell =>
    row.kind === 'REPAIR' ? cell(row) : null;
const failure =
  (cell: (row: FailureRow) => Cell) =>
  (row: Entry): Cell =>
    row.kind === 'FAILURE' ? cell(row) : null;
const ofRepairs = (columns: readonly Column<ServiceRow>[]): Column<Entry>[] =>
  columns.map((one) => ({ ...one, cell: repair(one.cell) }));
const ofFailures = (columns: readonly Column<FailureRow>[]): Column<Entry>[] =>
  columns.map((one) => ({ ...one, cell: failure(one.cell) }));

const yes = { yes: 'Y', no: 'N' };
const work: readonly Column<ServiceRow>[] = [
  column('Performed At', 'shop', (row) => row.shop),
  worded('Shop Type', 'site', { shop: 'In-house', vendor: 'Vendor', roadside: 'Road' }, (row) => row.site),
  column('Tech #', 'technician_key', (row) => row.technician_key),
  worded(
    'Why',
    'reason',
    {
      failure: 'Breakdown|Leak',
      planned: 'PM|Scheduled',
      'brake-work': 'Reline|Brake Job',
      'inspection-finding': 'Found at PM',
      comeback: 'Rework',
      other: 'Misc',
    },
    (row) => row.reason,
  ),
  listed(
    'Parts Replaced',
    'replaced',
    {
      seal: 'wheel seal',
      bearings: 'brg set',
      gasket: 'hubcap gasket',
      spacer: 'bearing spacer',
      lock: 'lock ring',
      hub: 'hub assy',
      hubcap: 'hub cap',
      lubricant: 'gear oil',
      lining: 'brake shoes',
      sleeve: 'wear sleeve',
    },
    ', ',
    (row) => row.replaced,
  ),
  column('Seal Lot', 'seal_lot', (row) => row.seal_lot),
  worded(
    'Hub Type',
    'hub_build',
    { adjusted: 'Conventional', spacer: 'Preset', unitized: 'Unitized' },
    (r) => r.hub_build,
  ),
  worded('Spindle Nut', 'nut_system', { double: 'Double', single: 'One piece' }, (row) => row.nut_system),
  worded('Hub Material', 'hub_material', { iron: 'Cast', aluminium: 'Alum' }, (row) => row.hub_material),
  worded('Lube', 'lubricant', { oil: 'Gear Oil', 'semi-fluid': '00', packed: '#2' }, (row) => row.lubricant),
  column('Lube Grade', 'lubricant_grade', (row) => row.lubricant_grade),
  worded('Fill Level', 'fill_level', { ok: 'Full', low: 'Low', over: 'Over' }, (row) => row.fill_level),
  ...torqueColumns({
    ...{ seating: 'Seating Torque ft-lb', inner: 'Inner Nut Torque ft-lb', outer: 'Outer Nut Torque ft-lb' },
    ...{ cell: (value) => value, unit: 'lbf·ft' },
  }),
  worded('Backed Off?', 'nut_backed_off', yes, (row) => row.nut_backed_off),
  column('End Play (in)', 'end_play_in', (row) => row.end_play_in, { unit: 'in' }),
  worded('End Play Measured', 'end_play_measured', yes, (row) => row.end_play_measured),
  ...stepColumns(plainSteps, (text) => `Chk ${text}`, { done: 'Y', skipped: 'N' }),
  column('Deviation Codes', 'deviations', (row) => row.deviations),
  worded('Checklist Complete', 'checklist_complete', yes, (row) => row.checklist_complete),
];

const failed: readonly Column<FailureRow>[] = [
  worded(
    'Failure Mode',
    'mode',
    {
      'seal-inner': 'SL-ID|Leaking behind seal',
      'seal-outer': 'SL-OD|Seal spun in bore',
      'seal-unknown': 'Wheel seal leak|Slinging',
      'gasket-hubcap': 'Hub cap leaking',
      'gasket-flange': 'Axle flange leak',
      vent: 'Vent blowing',
      'lubricant-low': 'Ran dry',
      'lubricant-metal': 'Metal in oil',
      bearing: 'Bearing failure|Spalled',
      'end-play': 'Loose',
      'hot-hub': 'Hot hub|Smoking',
      'wheel-lost': 'Wheel off',
    },
    (row) => row.mode,
  ),
  worded(
    'Found By',
    'found_by',
    { driver: 'DVIR', pm: 'PM', annual: 'Annual', roadside: 'DOT', 'road-call': 'Road call', shop: 'Tech' },
    (row) => row.found_by,
  ),
  column('Repair Line #', 'repair_service_id', (row) => row.repair_service_id),
  worded('Oil on Lining', 'lining_contaminated', yes, (row) => row.lining_contaminated),
  worded('Linings Replaced', 'linings_replaced', yes, (row) => row.linings_replaced),
  worded('Wheel Lost', 'wheel_lost', yes, (row) => row.wheel_lost),
  worded('Wheel Lost Cause', 'wheel_lost_by', { bearing: 'Brg', fastener: 'Studs' }, (row) => row.wheel_lost_by),
  worded('OOS', 'out_of_service', yes, (row) => row.out_of_service),
  column('Downtime Hours', 'downtime_hours', (row) => row.downtime_hours),
  column('Cost', 'cost', (row) => (row.cost === null ? null : `$${row.cost.toLocaleString('en-US')}.00`)),
  column('Teardown Findings', 'teardown_deviations', (row) => row.teardown_deviations),
];

/** American, its days beginning with the month; what it keeps beside wheel ends is passed over. */
export function ambleford(
  services: readonly Paper<ServiceRow>[],
  failures: readonly Paper<FailureRow>[],
  rolesOf: RolesOf,
): Listing<Entry> {
  const columns: Column<Entry>[] = [
    unused('Record Type', (row) => row.kind),
    column('Record ID', ['service_id', 'failure_id'], (row) =>
      row.kind === 'REPAIR' ? row.service_id : row.failure_id,
    ),
    ...ofRepairs([column('Work Order #', 'order_id', (row) => row.order_id)]),
    column('Unit #', 'unit_id', (row) => `#${row.unit_id}`, { drop: '#' }),
    column('Wheel Pos', 'position', (row) => yardSpelling(row, rolesOf(row))),
    unused('Opened', (row) => monthFirst(daysLater(row.date, -2))),
    column('Repair Date', 'date', (row) => monthFirst(row.date), { day: 'repair' }),
    unused('Closed', (row) => monthFirst(daysLater(row.date, 9))),
    column('Odometer (mi)', 'miles', (row) => grouped(row.miles), { unit: 'mi' }),
    ...ofRepairs(work),
    ...ofFailures(failed),
    column('Remarks', 'comment', (row) => row.comment),
  ];
  const others = ['TIRE', 'PM SERVICE', 'BODY'].flatMap((kind) =>
    Array.from({ length: Math.ceil(services.length / 40) }, (_, at) =>
      stray<Entry>('other-work', {
        'Record Type': kind,
        'Record ID': `N${kind.slice(0, 1)}${at}`,
        'Unit #': `#${services[at * 7]?.row.unit_id ?? '0001'}`,
        'Wheel Pos': kind === 'TIRE' ? 'RRO' : '',
        'Repair Date': monthFirst(services[at * 7]?.row.date ?? '2021-03-04'),
      }),
    ),
  );
  return {
    columns,
    papers: scattered([...entries(services, 'REPAIR'), ...entries(failures, 'FAILURE')], others),
    told: {
      source: 'Ambleford, work order history',
      feeds: {
        by: 'Record Type',
        words: {
          ...{ REPAIR: 'services', FAILURE: 'failures' },
          ...{ TIRE: 'passed-over', 'PM SERVICE': 'passed-over', BODY: 'passed-over' },
        },
        others: 'set-aside',
      },
      dates: { order: 'mdy' },
      numbers: { decimal: 'point' },
      blanks: ['N/A', 'not rec.'],
      positions: { driverSits: 'left' },
    },
  };
}
