import { csvLine } from '../../data/demo/csv-text.ts';
import type { DemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import { COLUMNS, type FailureRow, type InspectionRow, type ServiceRow, type UnitRow } from '../../data/demo/rows.ts';
import { millimetresPerInch, kilometresPerMile, newtonMetresPerFtLb } from '../../shared/units.ts';
import { steps } from '../../shared/vocabulary.ts';

/** The demo fleet as one file of each shop's own program would have it: no two agree in headers, words, units or days. */
export interface ShopFile {
  readonly name: string;
  readonly text: string;
}

type Cell = string | number | null;
type Columns<Row> = readonly (readonly [header: string, cell: (row: Row) => Cell])[];

const say = (words: Readonly<Record<string, string>>) => (word: string | null) =>
  word === null ? null : (words[word] ?? word);
const list = (words: Readonly<Record<string, string>>, mark: string) => (text: string | null) =>
  text === null
    ? null
    : text
        .split(';')
        .map((word) => words[word] ?? word)
        .join(mark);

const usDay = (iso: string) => `${Number(iso.slice(5, 7))}/${Number(iso.slice(8, 10))}/${iso.slice(0, 4)}`;
const europeanDay = (iso: string) => `${iso.slice(8, 10)}.${iso.slice(5, 7)}.${iso.slice(0, 4)}`;
const shortDay = (iso: string) => `${iso.slice(8, 10)}/${iso.slice(5, 7)}/${iso.slice(2, 4)}`;
/** Days since 1899-12-30, as spreadsheets count them. */
const serialDay = (iso: string) => (Date.parse(iso) - Date.UTC(1899, 11, 30)) / 86_400_000;
const monthDay = (iso: string) => {
  const month = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ')[Number(iso.slice(5, 7)) - 1] ?? '';
  return `${iso.slice(8, 10)}-${month}-${iso.slice(0, 4)}`;
};
const later = (iso: string, days: number) => new Date(Date.parse(iso) + days * 86_400_000).toISOString().slice(0, 10);

const grouped = (value: number | null) => (value === null ? null : value.toLocaleString('en-US'));
const comma = (value: number | null, factor: number, places: number) =>
  value === null ? null : String(Number((value * factor).toPrecision(places))).replace('.', ',');

function texts<Row>(rows: readonly Row[], columns: Columns<Row>, mark = ','): string {
  const write = (cells: readonly Cell[]) =>
    mark === ','
      ? csvLine(cells)
      : `${cells.map((cell) => (/["\n]/.test(String(cell ?? '')) || String(cell ?? '').includes(mark) ? `"${String(cell).replaceAll('"', '""')}"` : (cell ?? ''))).join(mark)}\n`;
  return (
    write(columns.map(([header]) => header)) + rows.map((row) => write(columns.map(([, cell]) => cell(row)))).join('')
  );
}

const stepColumns = (label: (step: string) => string, words: Readonly<Record<string, string>>): Columns<ServiceRow> =>
  steps
    .filter((step) => step !== 'step_vent_checked')
    .map((step) => [label(step), (row: ServiceRow) => say(words)(row[step])] as const);

const plainStep = (step: string) => step.replace('step_', '').replaceAll('_', ' ');

/** Places as each shop writes them; `roles` are the axles of the row's unit. */
type PlaceOf = (row: { axle: number; side: string }, roles: readonly string[]) => string;

const initials: PlaceOf = ({ axle, side }, roles) => {
  const letter = side === 'left' ? 'L' : 'R';
  if (axle === 1) return `${letter}F`;
  if (roles[0] === 'trailer') return roles.length === axle ? `${letter}R` : `${letter}M`;
  const drives = roles.flatMap((role, index) => (role === 'drive' ? [index + 1] : []));
  const nth = drives.indexOf(axle);
  if (nth < 0) return `${roles[axle - 1] ?? ''} ${letter}H`;
  return drives.length === 1 ? `drive ${letter}H` : `${['1st', '2nd'][nth] ?? ''} drive ${letter}H`;
};
const roleCodes: PlaceOf = ({ axle, side }, roles) => {
  const role = roles[axle - 1] ?? '';
  const same = roles.flatMap((own, index) => (own === role ? [index + 1] : []));
  const letter = side === 'left' ? 'L' : 'R';
  if (!['steer', 'drive', 'trailer'].includes(role)) return `${role} ${letter}H`;
  return `${role.slice(0, 1).toUpperCase()}${same.indexOf(axle) + 1}${letter}`;
};

const parts = {
  seal: 'wheel seal',
  bearings: 'brg set',
  gasket: 'gskt',
  hub: 'hub assy',
  hubcap: 'hub cap',
  lubricant: 'gear oil',
  lining: 'brake shoes',
  sleeve: 'wear sleeve',
};

interface Shops {
  readonly services: (shop: string) => readonly ServiceRow[];
  readonly failures: (shop: string) => readonly FailureRow[];
  readonly rolesOf: (row: { unit_id: string }) => readonly string[];
}

/** American, one list for repairs, failures and everything else, told apart by its record type. */
function ambleford({ services, failures, rolesOf }: Shops): ShopFile[] {
  type Entry = { readonly kind: string; readonly service: ServiceRow | null; readonly failure: FailureRow | null };
  const entries: Entry[] = [
    ...services('Ambleford').map((service) => ({ kind: 'REPAIR', service, failure: null })),
    ...failures('Ambleford').map((failure) => ({ kind: 'FAILURE', service: null, failure })),
  ];
  const row = (entry: Entry) => entry.service ?? entry.failure!;
  const mixed = entries.flatMap((entry, index) => (index % 9 === 0 ? [{ ...entry, kind: 'TIRE' }, entry] : [entry]));
  const s = (cell: (row: ServiceRow) => Cell) => (entry: Entry) =>
    entry.service && entry.kind !== 'TIRE' ? cell(entry.service) : null;
  const f = (cell: (row: FailureRow) => Cell) => (entry: Entry) =>
    entry.failure && entry.kind !== 'TIRE' ? cell(entry.failure) : null;
  let tires = 0;
  const columns: Columns<Entry> = [
    ['Record Type', ({ kind }) => kind],
    ['Record ID', (e) => (e.kind === 'TIRE' ? `TW${++tires}` : (e.service?.service_id ?? e.failure!.failure_id))],
    ['Work Order #', s((row) => row.order_id)],
    ['Unit No.', (e) => row(e).unit_id],
    ['Wheel Pos', (e) => initials(row(e), rolesOf(row(e)))],
    ['Opened', (e) => usDay(later(row(e).date, -1))],
    ['Repair Date', (e) => usDay(row(e).date)],
    ['Closed', (e) => usDay(later(row(e).date, 6))],
    ['Odometer (mi)', (e) => grouped(row(e).miles)],
    ['Shop', s((row) => row.shop)],
    ['Shop Type', s((row) => row.site)],
    ['Mechanic ID', s((row) => row.technician_key)],
    [
      'Reason for Repair',
      s((row) =>
        say({
          failure: 'Breakdown',
          planned: 'PM',
          'brake-work': 'Brake Job',
          'inspection-finding': 'Routine Inspection',
          comeback: 'Rework',
          other: 'Misc',
        })(row.reason),
      ),
    ],
    ['Parts Replaced', s((row) => list(parts, ', ')(row.replaced))],
    ['Seal Lot', s((row) => row.seal_lot)],
    ['Hub Type', s((row) => say({ adjusted: 'Conventional', spacer: 'Preset', unitized: 'Unitized' })(row.hub_build))],
    ['Spindle Nut', s((row) => row.nut_system)],
    ['Hub Material', s((row) => say({ aluminium: 'Alum', iron: 'Cast' })(row.hub_material))],
    ['Lube', s((row) => say({ oil: 'Gear Oil', 'semi-fluid': '00', packed: '#2' })(row.lubricant))],
    ['Lube Grade', s((row) => row.lubricant_grade)],
    ['Fill Level', s((row) => say({ ok: 'full' })(row.fill_level))],
    ['Seating Torque ft-lb', s((row) => row.seating_torque_ftlb)],
    ['Inner Nut Torque ft-lb', s((row) => row.inner_torque_ftlb)],
    ['Outer Nut Torque ft-lb', s((row) => row.outer_torque_ftlb)],
    ['Backed Off?', s((row) => say({ yes: 'Y', no: 'N' })(row.nut_backed_off))],
    ['End Play (in)', s((row) => row.end_play_in)],
    ['End Play Measured', s((row) => say({ yes: 'Y', no: 'N' })(row.end_play_measured))],
    ...stepColumns(plainStep, { done: 'Y', skipped: 'N' }).map(([header, cell]) => [header, s(cell)] as const),
    ['Deviation Codes', s((row) => row.deviations)],
    ['Checklist Complete', s((row) => say({ yes: 'Y' })(row.checklist_complete))],
    [
      'Failure Mode',
      f((row) =>
        say({
          'seal-unknown': 'Wheel seal leak',
          'seal-inner': 'SL-ID',
          'seal-outer': 'SL-OD',
          'gasket-hubcap': 'Hub cap leaking',
          'gasket-flange': 'axle flange',
          'hot-hub': 'Hot hub',
          'end-play': 'Loose',
          vent: 'Vent blowing',
          bearing: 'Bearing failure',
        })(row.mode),
      ),
    ],
    ['Found By', f((row) => row.found_by)],
    ['Repair WO Line', f((row) => row.repair_service_id)],
    ['Oil on Lining', f((row) => say({ yes: 'Y', no: 'N' })(row.lining_contaminated))],
    ['Linings Replaced', f((row) => say({ yes: 'Y', no: 'N' })(row.linings_replaced))],
    ['Wheel Lost', f((row) => say({ yes: 'Y', no: 'N' })(row.wheel_lost))],
    ['Wheel Lost Cause', f((row) => row.wheel_lost_by)],
    ['OOS', f((row) => say({ yes: 'Y', no: 'N' })(row.out_of_service))],
    ['Teardown Findings', f((row) => row.teardown_deviations)],
  ];
  return [{ name: 'north wo history.csv', text: texts(mixed, columns) }];
}

const km = (row: { miles: number | null }) => comma(row.miles, kilometresPerMile, 14);

/** Metric, decimal comma, semicolons, days before months, German headers. */
function brackwell({ services, failures }: Shops): ShopFile[] {
  const place = { left: 'links', right: 'rechts' };
  const both = [
    ['Fahrzeug-Nr.', (row: { unit_id: string }) => row.unit_id],
    ['Achse', (row: { axle: number }) => row.axle],
    ['Seite', (row: { side: string }) => say(place)(row.side)],
    ['Datum', (row: { date: string }) => europeanDay(row.date)],
    ['Kilometerstand', km],
  ] as const;
  const yesNo = say({ yes: 'ja', no: 'nein' });
  const work: Columns<ServiceRow> = [
    ['Service ID', (row) => row.service_id],
    ['Auftrag', (row) => row.order_id],
    ...both,
    ['Werkstatt', (row) => row.shop],
    ['Mechaniker', (row) => row.technician_key],
    ['Site', (row) => row.site],
    ['Reason', (row) => row.reason],
    ['Parts', (row) => list({}, ' + ')(row.replaced)],
    ['Lot', (row) => row.seal_lot],
    ['Hub build', (row) => row.hub_build],
    ['Nut system', (row) => say({ double: 'dual', single: 'one piece' })(row.nut_system)],
    ['Lubricant', (row) => say({ oil: 'Öl', 'semi-fluid': 'Fliessfett', packed: 'Fett' })(row.lubricant)],
    ['Fill level', (row) => row.fill_level],
    ['Torque seating (Nm)', (row) => comma(row.seating_torque_ftlb, newtonMetresPerFtLb, 14)],
    ['Torque inner nut (Nm)', (row) => comma(row.inner_torque_ftlb, newtonMetresPerFtLb, 14)],
    ['Torque outer nut (Nm)', (row) => comma(row.outer_torque_ftlb, newtonMetresPerFtLb, 14)],
    ['Backed off', (row) => yesNo(row.nut_backed_off)],
    ['Lagerspiel', (row) => comma(row.end_play_in, millimetresPerInch, 14)],
    ['Lagerspiel gemessen', (row) => yesNo(row.end_play_measured)],
    ...stepColumns(plainStep, { done: 'ja', skipped: 'nein' }),
    ['Deviations', (row) => row.deviations?.replaceAll(';', ', ') ?? null],
    ['Checklist complete', (row) => yesNo(row.checklist_complete)],
  ];
  const failed: Columns<FailureRow> = [
    ['Failure ID', (row) => row.failure_id],
    ...both,
    ['Found by', (row) => row.found_by],
    ['Failure mode', (row) => row.mode],
    ['Repair service ID', (row) => row.repair_service_id],
    ['Lining contaminated', (row) => yesNo(row.lining_contaminated)],
    ['Wheel lost', (row) => yesNo(row.wheel_lost)],
    ['Lost cause', (row) => row.wheel_lost_by],
  ];
  return [
    { name: 'Werk Sued Arbeiten.csv', text: texts(services('Brackwell'), work, ';') },
    { name: 'Werk Sued Ausfaelle.csv', text: texts(failures('Brackwell'), failed, ';') },
  ];
}

/** Axles of trailers counted behind three of the tractor, sides by the driver, a column for each part, thousandths, years of two digits. */
function coldmere({ services, failures, rolesOf }: Shops): ShopFile[] {
  const through = (row: { unit_id: string; axle: number }) => row.axle + (rolesOf(row)[0] === 'trailer' ? 3 : 0);
  const side = (row: { side: string }) => say({ left: 'Driver', right: 'Passenger' })(row.side);
  const flag = (part: string) => (row: ServiceRow) => (row.replaced.split(';').includes(part) ? 'X' : null);
  const work: Columns<ServiceRow> = [
    ['svc_line_id', (row) => row.service_id],
    ['wo_num', (row) => row.order_id],
    ['equip_id', (row) => row.unit_id],
    ['axle_no', through],
    ['side_desc', side],
    ['date_done', (row) => shortDay(row.date)],
    ['meter_miles', (row) => row.miles],
    ['location', (row) => row.shop],
    ['site', (row) => row.site],
    ['reason', (row) => row.reason],
    ...Object.entries({
      seal: 'seal',
      bearings: 'bearings',
      gasket: 'gasket',
      hub: 'hub assy',
      hubcap: 'hub cap',
      lubricant: 'lube',
      lining: 'lining',
      sleeve: 'wear sleeve',
      lock: 'lock ring',
    }).map(([part, header]) => [`${header} repl`, flag(part)] as const),
    ['seal_lot', (row) => row.seal_lot],
    ['hub_build', (row) => say({ adjusted: 'manual', spacer: 'pre-adjusted', unitized: 'cartridge' })(row.hub_build)],
    ['nut_type', (row) => row.nut_system],
    ['lubricant', (row) => row.lubricant],
    ['inner_torque_ftlb', (row) => row.inner_torque_ftlb],
    ['outer_torque_ftlb', (row) => row.outer_torque_ftlb],
    ['seating_torque_ftlb', (row) => row.seating_torque_ftlb],
    ['backed_off', (row) => row.nut_backed_off],
    ['fill', (row) => row.fill_level],
    ['endplay_thou', (row) => (row.end_play_in === null ? null : Math.round(row.end_play_in * 10_000) / 10)],
    ['endplay_measured', (row) => row.end_play_measured],
    ...stepColumns((step) => step, { done: '1', skipped: '0' }),
    ['deviations', (row) => row.deviations],
    ['checklist_complete', (row) => row.checklist_complete],
  ];
  const failed: Columns<FailureRow> = [
    ['fail_id', (row) => row.failure_id],
    ['equip_id', (row) => row.unit_id],
    ['axle_no', through],
    ['side_desc', side],
    ['found_date', (row) => shortDay(row.date)],
    ['meter_miles', (row) => row.miles],
    ['how_found', (row) => row.found_by],
    ['failure_mode', (row) => row.mode],
    ['repair_svc_line_id', (row) => row.repair_service_id],
    ['lining_contaminated', (row) => row.lining_contaminated],
    ['wheel_lost', (row) => row.wheel_lost],
    ['wheel_lost_by', (row) => row.wheel_lost_by],
  ];
  return [
    { name: 'C_repairs.csv', text: texts(services('Coldmere'), work) },
    { name: 'C_breakdowns.csv', text: texts(failures('Coldmere'), failed) },
  ];
}

/** Tabs, days as a spreadsheet's numbers, letters and numbers for places, failures without ids. */
function dunhollow({ services, failures, rolesOf }: Shops): ShopFile[] {
  const head = [
    ['Tractor/Trailer #', (row: { unit_id: string }) => row.unit_id],
    ['Position', (row: { unit_id: string; axle: number; side: string }) => roleCodes(row, rolesOf(row))],
    ['Date', (row: { date: string }) => serialDay(row.date)],
    ['Mileage', (row: { miles: number | null }) => row.miles],
  ] as const;
  const work: Columns<ServiceRow> = [
    ['Line ID', (row) => row.service_id],
    ['RO Number', (row) => row.order_id],
    ...head,
    ['Shop', (row) => row.shop],
    ['Site', (row) => row.site],
    ['Job Reason', (row) => row.reason],
    ['Parts Used', (row) => list(parts, ' / ')(row.replaced)],
    ['Batch', (row) => row.seal_lot],
    ['Hub System', (row) => row.hub_build],
    ['Nut', (row) => say({ double: 'Double nut', single: 'Single nut' })(row.nut_system)],
    ['Lubricant', (row) => row.lubricant],
    ['Level', (row) => row.fill_level],
    ['Torque Seating (ft.lbs)', (row) => row.seating_torque_ftlb],
    ['Torque Inner (ft.lbs)', (row) => row.inner_torque_ftlb],
    ['Torque Outer (ft.lbs)', (row) => row.outer_torque_ftlb],
    ['Backed Off', (row) => say({ yes: 'TRUE', no: 'FALSE' })(row.nut_backed_off)],
    ['EP', (row) => row.end_play_in],
    ['EP Measured', (row) => say({ yes: 'TRUE', no: 'FALSE' })(row.end_play_measured)],
    ...stepColumns(plainStep, { done: 'OK', skipped: 'not done' }),
    ['Deviations', (row) => row.deviations],
    ['Checklist Complete', (row) => say({ yes: 'TRUE' })(row.checklist_complete)],
  ];
  const failed: Columns<FailureRow> = [
    ...head,
    ['Failure Mode', (row) => row.mode],
    ['Detected', (row) => row.found_by],
    ['Repair Line ID', (row) => row.repair_service_id],
    ['Contaminated Lining', (row) => say({ yes: 'TRUE', no: 'FALSE' })(row.lining_contaminated)],
    ['Wheel Lost', (row) => say({ yes: 'TRUE', no: 'FALSE' })(row.wheel_lost)],
    ['Lost Cause', (row) => row.wheel_lost_by],
  ];
  return [
    { name: 'dh-jobs.tsv', text: texts(services('Dunhollow'), work, '\t') },
    { name: 'dh-failures.tsv', text: texts(failures('Dunhollow'), failed, '\t') },
  ];
}

/** Bars, an order and a line that make the id together, months by name, `Axle 3 LH`. */
function eastfen({ services, failures }: Shops): ShopFile[] {
  const place = (row: { axle: number; side: string }) => `Axle ${row.axle} ${row.side === 'left' ? 'LH' : 'RH'}`;
  const work: Columns<ServiceRow> = [
    ['Order', (row) => row.order_id],
    ['Line', (row) => row.service_id.replace(/^.*-/, '')],
    ['Vehicle', (row) => row.unit_id],
    ['Wheel End', place],
    ['Service Date', (row) => monthDay(row.date)],
    ['Odo mi', (row) => row.miles],
    ['Shop', (row) => row.shop],
    ['Site', (row) => row.site],
    ['Reason', (row) => row.reason],
    ['Replaced', (row) => row.replaced],
    ['Seal Lot', (row) => row.seal_lot],
    ['Hub Build', (row) => row.hub_build],
    ['Nut System', (row) => row.nut_system],
    ['Lubricant', (row) => row.lubricant],
    ['Fill Level', (row) => row.fill_level],
    ['Seating Torque lbf·ft', (row) => row.seating_torque_ftlb],
    ['Inner Torque lbf·ft', (row) => row.inner_torque_ftlb],
    ['Outer Torque lbf·ft', (row) => row.outer_torque_ftlb],
    ['Nut Backed Off', (row) => row.nut_backed_off],
    ['End Play in', (row) => row.end_play_in],
    ['End Play Measured', (row) => row.end_play_measured],
    ...stepColumns(plainStep, { done: 'pass', skipped: 'missed' }),
    ['Deviations', (row) => row.deviations],
    ['Checklist Complete', (row) => row.checklist_complete],
  ];
  const failed: Columns<FailureRow> = [
    ['Case Number', (row) => row.failure_id],
    ['Vehicle', (row) => row.unit_id],
    ['Wheel End', place],
    ['Found Date', (row) => monthDay(row.date)],
    ['Odo mi', (row) => row.miles],
    ['Found By', (row) => row.found_by],
    ['Failure Mode', (row) => row.mode],
    ['Service Number', (row) => row.repair_service_id],
    ['Lining Contaminated', (row) => row.lining_contaminated],
    ['Wheel Lost', (row) => row.wheel_lost],
    ['Wheel Lost By', (row) => row.wheel_lost_by],
  ];
  return [
    { name: 'east jobs.txt', text: texts(services('Eastfen'), work, '|') },
    { name: 'east failures.txt', text: texts(failures('Eastfen'), failed, '|') },
  ];
}

/** What the office keeps: the list of vehicles, the meters, the sheets of inspections. */
function office({ units, readings, inspections }: DemoFleet): ShopFile[] {
  const kinds = { tractor: 'Day cab tractor', straight: 'Box truck', trailer: 'Trailer' };
  const layouts: Record<string, string> = {
    'steer drive drive': '6x4',
    'steer drive': '4x2',
    'trailer trailer': 'Tandem',
    'trailer trailer trailer': 'Tri-axle',
    'steer drive tag': '6x2',
  };
  const vehicles: Columns<UnitRow> = [
    ['Unit', (row) => row.unit_id],
    ['Body Type', (row) => say(kinds)(row.unit_kind)],
    ['Axle Config', (row) => layouts[row.axle_roles] ?? row.axle_roles],
    ['New/Used', (row) => say({ new: 'N', used: 'U' })(row.acquired)],
    ['In Service Date', (row) => row.in_service_date],
    ['In Service Miles', (row) => row.in_service_miles],
    ['Sold Date', (row) => row.out_date],
    ['Sold Miles', (row) => row.out_miles],
    ['Disposal Reason', (row) => row.out_reason],
    ['Application', (row) => row.duty],
    ['Home Shop', (row) => row.home_shop],
  ];
  const looks: Columns<InspectionRow> = [
    ['Sheet No', (row) => row.inspection_id],
    ['Unit', (row) => row.unit_id],
    ['Axle', (row) => row.axle],
    ['L/R', (row) => (row.side === 'left' ? 'L' : 'R')],
    ['Inspection Date', (row) => `${row.date}T08:30:00Z`],
    ['Miles', (row) => row.miles],
    [
      'Inspection Type',
      (row) =>
        say({ pm: 'PM', annual: 'Annual inspection', roadside: 'DOT', driver: 'DVIR', 'pre-hire': 'pre hire' })(
          row.kind,
        ),
    ],
    ['Checked', (row) => say({ yes: 'Y', no: 'N' })(row.checked)],
    ['Leak', (row) => (row.leak === null ? null : (['dry', 'damp', 'wet', 'dripping'][row.leak] ?? null))],
    ['Leak Location', (row) => row.leak_at],
    ['Lining Contaminated', (row) => say({ yes: 'Y', no: 'N' })(row.lining_contaminated)],
  ];
  return [
    { name: 'fleet list.csv', text: texts(units, vehicles) },
    {
      name: 'meters.csv',
      text: texts(
        readings,
        COLUMNS.readings.map(
          (name) =>
            [
              { unit_id: 'Unit', date: 'Reading Date', miles: 'Odometer Miles', source: 'Meter Source' }[
                name as string
              ] ?? name,
              (row) => row[name],
            ] as const,
        ),
      ),
    },
    { name: 'pm sheets.csv', text: texts(inspections, looks) },
  ];
}

export function fiveShops(fleet: DemoFleet): ShopFile[] {
  const homes = new Map(fleet.units.map(({ unit_id, home_shop }) => [unit_id, home_shop]));
  const roles = new Map(fleet.units.map(({ unit_id, axle_roles }) => [unit_id, axle_roles.split(' ')]));
  const shops: Shops = {
    services: (shop) => fleet.services.filter((row) => row.shop === shop),
    failures: (shop) => fleet.failures.filter(({ unit_id }) => homes.get(unit_id) === shop),
    rolesOf: ({ unit_id }) => roles.get(unit_id) ?? [],
  };
  const outside = texts(
    shops.services('Outside'),
    COLUMNS.services.map((name) => [name, (row: ServiceRow) => row[name]] as const),
  );
  return [
    ...office(fleet),
    ...ambleford(shops),
    ...brackwell(shops),
    ...coldmere(shops),
    ...dunhollow(shops),
    ...eastfen(shops),
    { name: 'services-outside.csv', text: outside },
  ];
}

/** The same fleet with services numbered within their orders, as a shop that has no other id for a line would say them. */
export function numberedByOrder(fleet: DemoFleet): DemoFleet {
  const lines = new Map<string, number>();
  const ids = new Map<string, string>();
  const services = fleet.services.map((row) => {
    const line = (lines.get(row.order_id) ?? 0) + 1;
    lines.set(row.order_id, line);
    ids.set(row.service_id, `${row.order_id}-${line}`);
    return { ...row, service_id: `${row.order_id}-${line}` };
  });
  const repairOf = (id: string | null) => (id === null ? null : (ids.get(id) ?? id));
  const failures = fleet.failures.map((row) => ({ ...row, repair_service_id: repairOf(row.repair_service_id) }));
  return { ...fleet, services, failures };
}
