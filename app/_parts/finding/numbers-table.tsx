'use client';

import { useMemo, useState } from 'react';
import { findingTable, type FindingTable, type TableRow } from '../../../lib/charts/index.ts';
import type { Counted } from '../../../lib/view/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { CountLink } from './lives-link.tsx';
import { NumberGrounds } from './number-grounds.tsx';
import { orderedRows, type Order } from './ordered-rows.ts';

/** The numbers behind the figure; every column head sorts. */
export function NumbersTable({ finding, units }: { finding: Finding; units: UnitSystem }) {
  const table = useMemo(() => findingTable(finding, units), [finding, units]);
  const [order, setOrder] = useState<Order | null>(null);
  const [opened, setOpened] = useState<Opened | null>(null);
  const names = Math.max(1, finding.settings.by.length);
  const notes = [...new Set(table.rows.flatMap(({ cells }) => cells.map(({ note }) => note)))].filter(
    (note) => note !== '',
  );
  const group = finding.groups.find(({ label }) => label === opened?.group);
  const press = (column: number) =>
    setOrder((last) =>
      last?.column === column ? (last.down ? { column, down: false } : null) : { column, down: column >= names },
    );
  return (
    <section className="numbers" aria-labelledby="numbers">
      <h2 id="numbers">The numbers</h2>
      <div className="wide" role="region" aria-label="The numbers, scrolls sideways" tabIndex={0}>
        <table>
          <Heads {...{ table, order, press }} />
          <tbody>
            {orderedRows(table.rows, order).map((row) => (
              <Row key={row.group} {...{ row, table, names, notes, finding, opened, open: setOpened }} />
            ))}
          </tbody>
        </table>
      </div>
      {group && opened && (
        <NumberGrounds {...{ finding, group, units, name: opened.name, close: () => setOpened(null) }} />
      )}
      {notes.length > 0 && (
        <ul className="table-notes">
          {notes.map((note, index) => (
            <li key={note}>
              <sup>{noteMark(index)}</sup> {note}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function Heads({ table, order, press }: { table: FindingTable; order: Order | null; press: (column: number) => void }) {
  return (
    <thead>
      <tr>
        {table.columns.map(({ key, head, unit, number }, index) => {
          const sorted = order?.column === index ? (order.down ? 'descending' : 'ascending') : undefined;
          return (
            <th key={key} scope="col" className={number ? undefined : 'text-cell'} aria-sort={sorted}>
              <button type="button" className="sorter" onClick={() => press(index)}>
                {head}
                {unit !== '' && <span className="unit"> ({unit})</span>}
                <span className="sort-mark" aria-hidden="true">
                  {sorted === undefined ? '' : sorted === 'descending' ? ' ↓' : ' ↑'}
                </span>
              </button>
            </th>
          );
        })}
      </tr>
    </thead>
  );
}

/** a, b … z, aa, ab …: notes are few, but never run out of marks. */
const noteMark = (index: number): string =>
  index < 26 ? String.fromCharCode(97 + index) : noteMark(Math.floor(index / 26) - 1) + noteMark(index % 26);

/** The number whose grounds are shown. */
interface Opened {
  readonly group: string;
  readonly name: string;
}

interface RowProps {
  readonly row: TableRow;
  readonly table: FindingTable;
  readonly names: number;
  readonly notes: readonly string[];
  readonly finding: Finding;
  readonly opened: Opened | null;
  readonly open: (opened: Opened | null) => void;
}

/** Columns that lives can be listed for. */
const countedBy: Readonly<Record<string, Counted>> = {
  lives: 'lives',
  failures: 'failures',
  'count-failuresWithout': 'failuresWithout',
  'count-vehicles': 'vehicles',
  'count-leaksSoaked': 'leaksSoaked',
  'count-leaksClean': 'leaksClean',
  'count-leaksUnknown': 'leaksUnknown',
};

function Row({ row, table, names, notes, finding, opened, open }: RowProps) {
  const group = finding.groups.find(({ label }) => label === row.group) ?? null;
  return (
    <tr>
      {row.cells.map(({ text, detail, note, sort }, index) => {
        const column = table.columns[index];
        const counted = sort === 0 ? undefined : countedBy[column?.key ?? ''];
        const content = (
          <>
            {group?.estimates[column?.key ?? ''] !== undefined ? (
              <Opener {...{ group: row.group, name: column?.key ?? '', text, opened, open }} />
            ) : counted === undefined ? (
              text
            ) : (
              <CountLink finding={finding} group={group} counted={counted}>
                {text}
              </CountLink>
            )}
            {note !== '' && <sup> {noteMark(notes.indexOf(note))}</sup>}
            {detail !== '' && <small> {detail}</small>}
          </>
        );
        return index < names ? (
          <th key={column?.key} scope="row" className="text-cell">
            {content}
          </th>
        ) : (
          <td key={column?.key} className={column?.number ? undefined : 'text-cell'}>
            {content}
          </td>
        );
      })}
    </tr>
  );
}

interface OpenerProps extends Opened {
  readonly text: string;
  readonly opened: Opened | null;
  readonly open: (opened: Opened | null) => void;
}

/** A number that opens what it stands on. */
function Opener({ group, name, text, opened, open }: OpenerProps) {
  const isOpen = opened?.group === group && opened.name === name;
  return (
    <button
      type="button"
      className="number-opener"
      aria-expanded={isOpen}
      aria-controls={isOpen ? 'number-grounds' : undefined}
      title="What this number stands on"
      onClick={() => open(isOpen ? null : { group, name })}
    >
      {text}
    </button>
  );
}
