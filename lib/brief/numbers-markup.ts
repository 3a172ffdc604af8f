import { findingTable, type FindingTable, type TableRow } from '../charts/index.ts';
import type { Finding } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { daysWhole, html, nothing, type Markup } from './markup.ts';

/** So many columns of numbers stand side by side on a sheet; more go on in a table beneath. */
const mostColumns = 6;
/** Up to so many groups stand side by side, a line a number. */
const mostAcross = 2;

interface Told extends FindingTable {
  /** Why there is no value, each reason once, in the order of its marks. */
  readonly reasons: readonly string[];
}

/** The numbers of a finding as on screen, in as many tables as the sheet's width asks for. */
export function numbersMarkup(finding: Finding, units: UnitSystem): Markup {
  const { columns, rows } = findingTable(finding, units);
  const notes = rows.flatMap(({ cells }) => cells.map(({ note }) => note));
  const told = { columns, rows, reasons: [...new Set(notes.filter((note) => note !== ''))] };
  return html`${rows.length <= mostAcross ? acrossMarkup(told) : downMarkup(told)}
  ${told.reasons.length === 0 ? nothing : html`<p class="small quiet reasons">${told.reasons.map((reason, at) => html`<span>[${at + 1}] ${reason}</span>`)}</p>`}`;
}

const named = ({ columns }: Told): number[] =>
  columns.flatMap(({ number, key }, at) => (!number && key !== 'firmness' ? [at] : []));

const headText = ({ columns }: Told, at: number): string => {
  const { head = '', unit = '' } = columns[at] ?? {};
  return unit === '' ? head : `${head} (${unit})`;
};

function cellMarkup({ columns, rows, reasons }: Told, row: TableRow, at: number): Markup {
  const { text = '', detail = '', note = '' } = row.cells[at] ?? {};
  const mark = note === '' ? '' : ` [${reasons.indexOf(note) + 1}]`;
  return html`<td class="${columns[at]?.number || rows.length <= mostAcross ? 'number' : ''}">
    ${daysWhole(text)}${mark}${detail === '' ? nothing : html`<small>${detail}</small>`}
  </td>`;
}

/** Few groups: a line a number, a column a group. */
function acrossMarkup(told: Told): Markup {
  const names = named(told);
  const lines = told.columns.flatMap((_, at) => (names.includes(at) ? [] : [at]));
  const nameOf = ({ cells }: TableRow) => names.map((at) => cells[at]?.text ?? '').join(' · ');
  return html`<table>
    <thead>
      <tr>
        <th scope="col">number</th>
        ${told.rows.map((row) => html`<th scope="col" class="number">${daysWhole(nameOf(row))}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${lines.map(
        (at) =>
          html`<tr>
            <th scope="row">${headText(told, at)}</th>
            ${told.rows.map((row) => cellMarkup(told, row, at))}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** Many groups: a line a group, named in every table. */
function downMarkup(told: Told): Markup {
  const names = named(told);
  const others = told.columns.flatMap((_, at) => (names.includes(at) ? [] : [at]));
  const tables = Math.ceil(others.length / mostColumns);
  // Evenly: a table of one column would be read as one of its own.
  const width = Math.ceil(others.length / tables);
  const parts = Array.from({ length: tables }, (_, part) => [
    ...names,
    ...others.slice(part * width, (part + 1) * width),
  ]);
  const head = (at: number) =>
    html`<th scope="col" class="${told.columns[at]?.number ? 'number' : ''}">${headText(told, at)}</th>`;
  return html`${parts.map(
    (part) =>
      html`<div class="wide">
        <table>
          <thead>
            <tr>
              ${part.map(head)}
            </tr>
          </thead>
          <tbody>
            ${told.rows.map(
              (row) =>
                html`<tr>
                  ${part.map((at) => cellMarkup(told, row, at))}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>`,
  )}`;
}
