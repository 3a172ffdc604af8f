import type { ServiceRow } from '../rows.ts';
import { column, listed, unused, worded, type Column, type Listing } from './listing.ts';
import type { Paper } from './mess.ts';
import { yardSpelling, type RolesOf } from './place-spellings.ts';
import { stepColumns, torqueColumns, plainSteps } from './service-columns.ts';
import { daysLater, grouped, shortMonthFirst } from './spelled.ts';

const yes = { yes: 'y', no: 'n' };

/** What vendors and roadside calls billed, keyed in at the office: years of two digits, bars between the cells. */
export function outsideInvoices(papers: readonly Paper<ServiceRow>[], rolesOf: RolesOf): Listing<ServiceRow> {
  const columns: Column<ServiceRow>[] = [
    column('Inv Line', 'service_id', (row) => row.service_id),
    column('Invoice No', 'order_id', (row) => row.order_id),
    column('Truck/Trlr', 'unit_id', (row) => row.unit_id),
    column('Wheel Position', 'position', (row) => yardSpelling(row, rolesOf(row))),
    column('Svc Dt', 'date', (row) => shortMonthFirst(row.date), { day: 'repair' }),
    unused('Inv Dt', (row) => shortMonthFirst(daysLater(row.date, 21))),
    column('Mlg', 'miles', (row) => grouped(row.miles), { unit: 'mi' }),
    worded('Done by', 'site', { shop: 'own', vendor: 'vendor|dealer', roadside: 'road call' }, (row) => row.site),
    column('Tech', 'technician_key', (row) => row.technician_key),
    worded(
      'Complaint',
      'reason',
      {
        failure: 'leak',
        planned: 'pm',
        'brake-work': 'brake work',
        'inspection-finding': 'insp',
        comeback: 'comeback',
        other: 'other',
      },
      (row) => row.reason,
    ),
    listed(
      'Parts Billed',
      'replaced',
      {
        seal: 'SEAL',
        bearings: 'BRGS',
        gasket: 'GSKT',
        spacer: 'SPCR',
        lock: 'LOCKWASHER',
        hub: 'HUB',
        hubcap: 'HUBCAP',
        lubricant: 'LUBE',
        lining: 'SHOES',
        sleeve: 'SLEEVE',
      },
      '; ',
      (row) => row.replaced,
    ),
    column('Lot', 'seal_lot', (row) => row.seal_lot),
    worded('Hub', 'hub_build', { adjusted: 'CONV', spacer: 'PRESET', unitized: 'UNITIZED' }, (row) => row.hub_build),
    worded('Nuts', 'nut_system', { double: '2', single: '1' }, (row) => row.nut_system),
    worded('Mat', 'hub_material', { iron: 'FE', aluminium: 'AL' }, (row) => row.hub_material),
    worded('Lub', 'lubricant', { oil: 'OIL', 'semi-fluid': '00', packed: 'GREASE' }, (row) => row.lubricant),
    column('Lub Grade', 'lubricant_grade', (row) => row.lubricant_grade),
    worded('Fill', 'fill_level', { ok: 'ok', low: 'low', over: 'high' }, (row) => row.fill_level),
    ...torqueColumns({
      ...{ seating: 'Seat Trq (ft-lb)', inner: 'Inr Trq (ft-lb)', outer: 'Otr Trq (ft-lb)' },
      ...{ cell: (value) => value, unit: 'lbf·ft' },
    }),
    worded('Back off', 'nut_backed_off', yes, (row) => row.nut_backed_off),
    column('EP in.', 'end_play_in', (row) => row.end_play_in, { unit: 'in' }),
    worded('EP meas', 'end_play_measured', yes, (row) => row.end_play_measured),
    ...stepColumns(plainSteps, (text) => `${text}?`, { done: 'y', skipped: 'n' }),
    column('Deviations', 'deviations', (row) => row.deviations),
    worded('Checklist', 'checklist_complete', yes, (row) => row.checklist_complete),
    column('Memo', 'comment', (row) => row.comment),
  ];
  return {
    columns,
    papers,
    told: {
      source: 'Outside work, invoices',
      feeds: { table: 'services' },
      dates: { order: 'mdy' },
      numbers: { decimal: 'point' },
      blanks: ['N/A'],
      positions: { driverSits: 'left' },
      fixed: { shop: 'Outside' },
    },
  };
}
