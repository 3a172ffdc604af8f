import { millimetresPerInch, newtonMetresPerFtLb } from '../../../shared/units.ts';
import type { FailureRow, ServiceRow } from '../rows.ts';
import { column, listed, unused, worded, type Column, type Listing } from './listing.ts';
import type { Paper } from './mess.ts';
import { stepColumns, torqueColumns } from './service-columns.ts';
import { daysLater, decimalComma, kilometres, pointedDay } from './spelled.ts';

type Any = ServiceRow | FailureRow;
const yes = { yes: 'ja', no: 'nein' };

const place: readonly Column<Any>[] = [
  column('Fahrzeug-Nr.', 'unit_id', (row) => row.unit_id),
  column('Achse', 'position', (row) => row.axle, { joined: 'space' }),
  {
    ...column<Any>('Seite', 'position', (row) => (row.side === 'left' ? 'links' : 'rechts')),
    part: { words: { li: 'left', re: 'right' } },
    source: { joined: 'space' },
  },
];

const modes = {
  'seal-inner': 'Dichtring innen undicht',
  'seal-outer': 'Dichtring außen undicht',
  'seal-unknown': 'Dichtring undicht',
  'gasket-hubcap': 'Kappendichtung',
  'gasket-flange': 'Flanschdichtung',
  vent: 'Entlüftung',
  'lubricant-low': 'Ölmangel',
  'lubricant-metal': 'Späne im Öl',
  bearing: 'Lagerschaden',
  'end-play': 'Lagerspiel zu groß',
  'hot-hub': 'Nabe heiß',
  'wheel-lost': 'Rad verloren',
};

const parts = {
  seal: 'Dichtring',
  bearings: 'Lager',
  gasket: 'Dichtung',
  spacer: 'Distanzhülse',
  lock: 'Sicherung',
  hub: 'Nabe',
  hubcap: 'Kappe',
  lubricant: 'Öl',
  lining: 'Beläge',
  sleeve: 'Laufring',
};

const steps = {
  step_cavity_cleaned: 'Nabe gereinigt',
  step_seal_tool_used: 'Einpresswerkzeug',
  step_seal_seated: 'Dichtring sitzt',
  step_spacer_fitted: 'Hülse eingesetzt',
  step_spacer_oriented: 'Hülse richtig herum',
  step_hub_supported: 'Nabe abgestützt',
  step_lock_engaged: 'Sicherung eingerastet',
  step_outer_nut_torqued: 'Kontermutter angezogen',
  step_gasket_new: 'Dichtung neu',
  step_lubricant_matched: 'Schmierstoff passt',
  step_fill_checked: 'Füllung geprüft',
  step_spindle_dressed: 'Achszapfen geglättet',
  step_mark_fitted: 'Kennzeichen angebracht',
};

const told = {
  dates: { order: 'dmy' as const },
  numbers: { decimal: 'comma' as const },
  blanks: ['k.A.', '-'],
};

/** Metric, decimal comma, in a language of its own. */
export function brackwellWork(papers: readonly Paper<ServiceRow>[]): Listing<ServiceRow> {
  const columns: Column<ServiceRow>[] = [
    column('Zeile', 'service_id', (row) => row.service_id),
    column('Auftrag', 'order_id', (row) => row.order_id),
    ...place,
    unused('Eingang', (row) => pointedDay(daysLater(row.date, -1))),
    column('Ausgeführt am', 'date', (row) => pointedDay(row.date), { day: 'repair' }),
    unused('Rechnung vom', (row) => pointedDay(daysLater(row.date, 14))),
    column('Kilometerstand', 'miles', (row) => kilometres(row.miles), { unit: 'km' }),
    column('Mechaniker', 'technician_key', (row) => row.technician_key),
    worded('Ort', 'site', { shop: 'Werkstatt', vendor: 'extern', roadside: 'Straße' }, (row) => row.site),
    worded(
      'Grund',
      'reason',
      {
        failure: 'Ausfall',
        planned: 'geplant',
        'brake-work': 'Bremsen',
        'inspection-finding': 'Prüfbefund',
        comeback: 'Nacharbeit',
        other: 'sonstiges',
      },
      (row) => row.reason,
    ),
    listed('Teile', 'replaced', parts, ' + ', (row) => row.replaced),
    column('Charge', 'seal_lot', (row) => row.seal_lot),
    worded(
      'Nabenbauart',
      'hub_build',
      { adjusted: 'einstellbar', spacer: 'mit Hülse', unitized: 'Einheit' },
      (r) => r.hub_build,
    ),
    worded('Muttern', 'nut_system', { double: 'zwei', single: 'eine' }, (row) => row.nut_system),
    worded('Nabenwerkstoff', 'hub_material', { iron: 'Guss', aluminium: 'Alu' }, (row) => row.hub_material),
    {
      ...worded<ServiceRow>(
        'Schmierstoff',
        'lubricant',
        { oil: 'Öl', 'semi-fluid': 'Fließfett', packed: 'Fett' },
        (r) => r.lubricant,
      ),
      source: { unreadable: 'blank' },
    },
    column('Sorte', 'lubricant_grade', (row) => row.lubricant_grade),
    worded('Füllstand', 'fill_level', { ok: 'voll', low: 'zu wenig', over: 'zu viel' }, (row) => row.fill_level),
    ...torqueColumns({
      ...{ seating: 'Drehmoment Setzen (Nm)', inner: 'Drehmoment innen (Nm)', outer: 'Drehmoment Kontermutter (Nm)' },
      ...{ cell: (value) => decimalComma(value, newtonMetresPerFtLb), unit: 'N·m' },
    }),
    worded('Zurückgedreht', 'nut_backed_off', yes, (row) => row.nut_backed_off),
    column('Lagerspiel (mm)', 'end_play_in', (row) => decimalComma(row.end_play_in, millimetresPerInch), {
      unit: 'mm',
    }),
    worded('Lagerspiel gemessen', 'end_play_measured', yes, (row) => row.end_play_measured),
    ...stepColumns(steps, (text) => text, { done: 'ja', skipped: 'nein' }),
    listed('Abweichungen', 'deviations', {}, ', ', (row) => row.deviations),
    worded('Prüfliste vollständig', 'checklist_complete', yes, (row) => row.checklist_complete),
    column('Bemerkung', 'comment', (row) => row.comment),
  ];
  return {
    columns,
    papers,
    told: { ...told, source: 'Brackwell, Arbeiten', feeds: { table: 'services' }, fixed: { shop: 'Brackwell' } },
  };
}

export function brackwellFailures(papers: readonly Paper<FailureRow>[]): Listing<FailureRow> {
  const found = {
    driver: 'Fahrer',
    pm: 'Wartung',
    annual: 'Hauptuntersuchung',
    roadside: 'Kontrolle',
    'road-call': 'Panne',
    shop: 'Werkstatt',
  };
  const columns: Column<FailureRow>[] = [
    column('Schaden-Nr.', 'failure_id', (row) => row.failure_id),
    ...place,
    column('Festgestellt am', 'date', (row) => pointedDay(row.date)),
    column('Kilometerstand', 'miles', (row) => kilometres(row.miles), { unit: 'km' }),
    worded('Festgestellt durch', 'found_by', found, (row) => row.found_by),
    worded('Schadensart', 'mode', modes, (row) => row.mode),
    column('Reparatur-Zeile', 'repair_service_id', (row) => row.repair_service_id),
    worded('Belag verölt', 'lining_contaminated', yes, (row) => row.lining_contaminated),
    worded('Beläge ersetzt', 'linings_replaced', yes, (row) => row.linings_replaced),
    worded('Rad verloren', 'wheel_lost', yes, (row) => row.wheel_lost),
    worded(
      'Ursache Radverlust',
      'wheel_lost_by',
      { bearing: 'Lager', fastener: 'Radmuttern' },
      (row) => row.wheel_lost_by,
    ),
    worded('Stillgelegt', 'out_of_service', yes, (row) => row.out_of_service),
    column('Standzeit (Std)', 'downtime_hours', (row) => row.downtime_hours, { unit: 'h' }),
    column('Kosten', 'cost', (row) => (row.cost === null ? null : `${row.cost.toLocaleString('de-DE')},00`)),
    listed('Befund zerlegt', 'teardown_deviations', {}, ', ', (row) => row.teardown_deviations),
    column('Bemerkung', 'comment', (row) => row.comment),
  ];
  return { columns, papers, told: { ...told, source: 'Brackwell, Ausfälle', feeds: { table: 'failures' } } };
}
