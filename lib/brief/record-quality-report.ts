import { findingCautions } from '../../shared/cautions.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import type { FieldFilled, RecordQuality } from '../../shared/record-quality.ts';
import { html, nothing, tableMarkup, type Markup } from './markup.ts';
import { percentSign } from '../../shared/percent-sign.ts';

const style = `
:root { color-scheme: light; font: 15px/1.5 Georgia, serif; color: #1c1f24; background: #fff; }
body { max-width: 60rem; margin: 2rem auto; padding: 0 1.25rem; }
h1 { font-size: 1.7rem; line-height: 1.2; } h2 { font-size: 1.2rem; margin: 2rem 0 .5rem; }
table { border-collapse: collapse; width: 100%; font: .85rem/1.4 system-ui, sans-serif; margin: .75rem 0 1.25rem; }
caption { text-align: left; padding-bottom: .35rem; color: #565c66; }
th, td { text-align: left; padding: .25rem .6rem .25rem 0; border-bottom: 1px solid #d9dce1; vertical-align: top; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
.fingerprint { font: .8rem ui-monospace, monospace; overflow-wrap: anywhere; }
.wide { overflow-x: auto; }
@media print { body { margin: 0; max-width: none; } h2 { break-after: avoid; } tr { break-inside: avoid; } thead { display: table-header-group; } }
@page { margin: 18mm; }`;

const percent = (part: number, whole: number): string =>
  whole === 0 ? '—' : `${Math.round((100 * part) / whole)}${percentSign}`;

/** Which of the records a report is about. */
export type ReportedRecords = Pick<ReadReport, 'name' | 'invented' | 'fingerprint' | 'files'>;

/** The data-quality report: one HTML file that opens offline and prints; every number is one of `quality`. */
export function recordQualityReport(quality: RecordQuality, records: ReportedRecords): string {
  const { observedFrom, observedTo } = quality;
  const { markup } = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>Records of ${records.name}</title>
        <style>
          ${{ markup: style }}
        </style>
      </head>
      <body>
        <h1>Can the records of ${records.name} be trusted?</h1>
        ${records.invented ? html`<p><b>Invented records: no number here is about a real fleet.</b></p>` : nothing}
        <p>
          Watched from ${observedFrom ?? 'an unknown day'} to ${observedTo ?? 'an unknown day'}. Fingerprint of the
          records: <span class="fingerprint">${records.fingerprint}</span>
        </p>
        <h2>What the weaknesses do</h2>
        ${effects(quality)}
        <h2>What was used</h2>
        ${used(quality, records)}
        <h2>Which blank costs most</h2>
        ${narrowing(quality)}
        <h2>How full the fields are</h2>
        ${fields(quality)}
        <h2>Rows that meet nothing</h2>
        ${links(quality)}
        <h2>Which times are covered</h2>
        ${coverage(quality)}
        <h2>How hard anybody looked</h2>
        ${intensity(quality)}
        <h2>Cautions</h2>
        <ul>
          ${findingCautions.map(({ long }) => html`<li>${long}</li>`)}
        </ul>
      </body>
    </html>`;
  return `${markup}\n`;
}

const effects = ({ effects: found }: RecordQuality): Markup =>
  found.length === 0
    ? html`<p>No weakness was found that this report looks for.</p>`
    : tableMarkup(
        'Each weakness, and what it does to the answers',
        ['weakness', 'what it does', 'to'],
        found.map(({ weakness, effect, questions }) => [weakness, effect, questions.join(', ')]),
      );

const used = ({ tables }: RecordQuality, { files }: ReportedRecords): Markup =>
  html`${tableMarkup(
    'By table: read = kept + set aside',
    ['table', 'read', 'kept', 'set aside', 'why'],
    tables.map(({ table, read, kept, setAside, reasons }) => [
      ...[table, read, kept, setAside],
      reasons.map(({ reason, rows }) => `${rows.toLocaleString('en-US')} × ${reason}`).join('; '),
    ]),
  )}${tableMarkup(
    'By file',
    ['file', 'feeds', 'read', 'kept', 'set aside', 'not used'],
    files.map(({ name, table, read, kept, setAside, refused, unusedColumns }) => [
      ...[name, table ?? '—', read, kept, setAside],
      refused ?? unusedColumns.join(', '),
    ]),
  )}`;

const narrowing = (quality: RecordQuality): Markup =>
  tableMarkup(
    'If the field were always filled, and what is blank split as what is known does: upper over lower limit of the 95\u00a0% interval, and how much narrower it becomes on the log scale',
    ['field', 'answer', 'failures known', 'not known', 'now', 'then', 'narrower by'],
    quality.narrowing.map(({ field, answer, known, unknown, now, then, narrower }) => [
      ...[field, answer, known, unknown],
      ...[now.toPrecision(3), then.toPrecision(3), percent(narrower, 1)],
    ]),
  );

const fields = ({ shops, fields: judged }: RecordQuality): Markup =>
  html`${[...new Set(judged.map(({ table }) => table))].map(
    (table) =>
      html`<div class="wide">
        ${tableMarkup(
          `${table}: share filled, of the rows where the field can exist`,
          ['field', 'all', ...shops],
          judged.filter((field) => field.table === table).map(fieldRow),
        )}
      </div>`,
  )}`;

const fieldRow = ({ column, filled, rows, shops }: FieldFilled): string[] => [
  ...[column, percent(filled, rows)],
  ...shops.map((shop) => percent(shop.filled, shop.rows)),
];

const links = (quality: RecordQuality): Markup =>
  tableMarkup(
    'Links that records should have',
    ['link', 'lacking', 'of', 'such as'],
    quality.links.map(({ name, rows, of, examples }) => [name, rows, of, examples.join(', ')]),
  );

const coverage = (quality: RecordQuality): Markup =>
  html`${tableMarkup(
    'By table',
    ['table', 'first', 'last', 'months with rows', 'rows'],
    quality.coverage.map(({ table, first, last, months }) => [
      ...[table, first, last, months.length],
      months.reduce((sum, { rows }) => sum + rows, 0),
    ]),
  )}${
    quality.silent.length === 0
      ? nothing
      : tableMarkup(
          'Shops that fell silent',
          ['shop', 'from', 'to', 'days', 'usual days between services'],
          quality.silent.map(({ shop, from, to, days, usualDays }) => [shop, from, to, days, usualDays]),
        )
  }`;

const intensity = (quality: RecordQuality): Markup =>
  tableMarkup(
    'Checked inspections within lives, against the miles of those lives',
    ['by', 'value', 'checks', 'wheel-end miles', 'checks per 100,000 miles'],
    quality.intensity.map(({ by, value, checks, miles }) => [
      ...[by, value, checks, Math.round(miles)],
      miles > 0 ? ((100_000 * checks) / miles).toFixed(1) : '—',
    ]),
  );
