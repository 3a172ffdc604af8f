import type { InspectionRow } from '../rows.ts';
import { column, worded, type Column, type Listing } from './listing.ts';
import type { Paper } from './mess.ts';
import type { ListedUnit, MeterReading } from './unit-records.ts';

/** The office's list of vehicles, a workbook under its titles. */
export function fleetList(papers: readonly Paper<ListedUnit>[]): Listing<ListedUnit> {
  const columns: Column<ListedUnit>[] = [
    column('Unit No', 'unit_id', (row) => row.unit_id),
    worded(
      'Type',
      'unit_kind',
      { tractor: 'Day cab|Sleeper', straight: 'Box truck', trailer: 'Van|Reefer|Flatbed' },
      (r) => r.unit_kind,
    ),
    worded(
      'Axle Config',
      'axle_roles',
      {
        'steer drive': '4x2',
        'steer drive drive': '6x4',
        'steer drive tag': '6x2 tag',
        'steer pusher drive drive': '8x4 pusher',
        'trailer trailer': 'Tandem',
        'trailer trailer trailer': 'Tri-axle',
      },
      (row) => row.axle_roles,
    ),
    worded('New/Used', 'acquired', { new: 'N', used: 'U' }, (row) => row.acquired),
    column('In-Service Date', 'in_service_date', (row) => ({ day: row.in_service_date })),
    column('In-Service Miles', 'in_service_miles', (row) => row.in_service_miles, { unit: 'mi' }),
    column('Out Date', 'out_date', (row) => (row.out_date === null ? null : { day: row.out_date })),
    column('Out Miles', 'out_miles', (row) => row.out_miles, { unit: 'mi' }),
    worded(
      'Out Reason',
      'out_reason',
      { sold: 'Auction|Trade-in', wrecked: 'Totaled', transferred: 'Transfer' },
      (row) => row.out_reason,
    ),
    column('Application', 'duty', (row) => row.duty),
    column('Home Shop', 'home_shop', (row) => row.home_shop),
    column('Old Unit No', 'former_ids', (row) => row.former_ids),
  ];
  return {
    columns,
    papers,
    told: {
      ...{ source: 'Office, fleet list', feeds: { table: 'units' }, dates: {}, numbers: { decimal: 'point' } },
      where: { sheet: 'Fleet' },
      blanks: ['n/a'],
    },
  };
}

/** Meters as a program in a warehouse keeps them. */
export function meterReadings(papers: readonly Paper<MeterReading>[]): Listing<MeterReading> {
  const columns: Column<MeterReading>[] = [
    column('asset', 'unit_id', (row) => row.unit_id),
    column('read_on', 'date', (row) => ({ day: row.date })),
    column('meter_miles', 'miles', (row) => row.miles, { unit: 'mi' }),
    worded(
      'meter_type',
      'source',
      { odometer: 'odo', hubodometer: 'hubmeter', telematics: 'gps', estimated: 'est' },
      (row) => row.source,
    ),
    worded('meter_event', 'event', { replaced: 'swap', reset: 'zeroed' }, (row) => row.event),
    column('miles_on_old_meter', 'miles_before', (row) => row.miles_before, { unit: 'mi' }),
  ];
  return {
    columns,
    papers,
    told: { source: 'Office, meters', feeds: { table: 'readings' }, dates: {}, numbers: { decimal: 'point' } },
  };
}

/** Wheel-end sheets of every check, keyed in and packed. */
export function checkSheets(papers: readonly Paper<InspectionRow>[]): Listing<InspectionRow> {
  const yes = { yes: 'Y', no: 'N' };
  const columns: Column<InspectionRow>[] = [
    column('Sheet #', 'inspection_id', (row) => row.inspection_id),
    column('Unit', 'unit_id', (row) => row.unit_id),
    column('Axle', 'position', (row) => row.axle, { joined: 'space' }),
    {
      ...column<InspectionRow>('Side', 'position', (row) => (row.side === 'left' ? 'L' : 'R'), { joined: 'space' }),
      part: { only: 'side' },
    },
    column('Inspection Date', 'date', (row) => row.date.replaceAll('-', '/')),
    column('Miles', 'miles', (row) => row.miles, { unit: 'mi' }),
    worded(
      'Inspection Type',
      'kind',
      { driver: 'DVIR', pm: 'PM-A|PM-B', annual: 'Annual', roadside: 'DOT', 'pre-hire': 'Pre-hire' },
      (row) => row.kind,
    ),
    worded('Looked at', 'checked', yes, (row) => row.checked),
    worded('Leak', 'leak', { 0: 'dry', 1: 'damp', 2: 'wet', 3: 'dripping' }, (row) =>
      row.leak === null ? null : String(row.leak),
    ),
    worded(
      'Leak from',
      'leak_at',
      { inboard: 'inner', hubcap: 'hub cap', flange: 'axle flange', vent: 'vent plug', unknown: '?' },
      (row) => row.leak_at,
    ),
    column('Lube level', 'lubricant_level', (row) => row.lubricant_level),
    worded(
      'Lube condition',
      'lubricant_condition',
      { clear: 'clean', dark: 'black', milky: 'milky', metallic: 'metal' },
      (row) => row.lubricant_condition,
    ),
    worded('Oil on lining', 'lining_contaminated', yes, (row) => row.lining_contaminated),
    column('End play in', 'end_play_in', (row) => row.end_play_in, { unit: 'in' }),
  ];
  return {
    columns,
    papers,
    told: { source: 'Office, check sheets', feeds: { table: 'inspections' }, dates: {}, numbers: { decimal: 'point' } },
  };
}
