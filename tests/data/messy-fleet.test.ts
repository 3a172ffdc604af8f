// What must become of every row is known from the making of the mess, never from the reader.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { messyFleet } from '../../data/demo/messy/messy-fleet.ts';
import { messKinds, type MessCode } from '../../data/demo/messy/mess.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { identifier, sql } from '../../lib/engine/statement.ts';
import { livesFromRecords, proceduresOf } from '../../lib/lives/index.ts';
import { readRecords } from '../../lib/records/index.ts';
import { recordTables, tableNames, type TableName } from '../../shared/record-tables.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { asideOf, keptRows } from '../records/sources.ts';
import { messySources, nameOf, placeOf, reasonsFor, rulesFor, trueRows, type TrueRow } from './messy-reading.ts';

const fleet = messyFleet({ units: 160 });
const truth = trueRows(fleet);
const truthAt = new Map(truth.map((row) => [row.place, row]));

let engine: Engine;
let report: ReadReport;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
  report = await readRecords(engine, messySources(fleet));
}, 120_000);
afterAll(() => engine.close());

const made = (code: MessCode) => truth.filter(({ messes }) => messes.some((mess) => mess.code === code));

describe('a fleet as five shops would export it', () => {
  it('has every mess in it', () => {
    expect(Object.keys(messKinds).filter((code) => made(code as MessCode).length === 0)).toEqual([]);
  });

  it('is read whole, every file by the map that comes with it and every row accounted for', () => {
    expect(report.files.filter(({ refused }) => refused !== null)).toEqual([]);
    expect(report.files.reduce((sum, { read }) => sum + read, 0)).toBe(truth.length);
    for (const file of report.files) expect(file.read, file.name).toBe(file.kept + file.setAside);
  });

  it('has those rows set aside that must be, each for its reason', async () => {
    const aside = await asideOf(engine);
    const places = aside.map(({ file, row }) => placeOf(file, row));
    const must = truth.filter(({ must }) => must === 'set-aside').map(({ place }) => place);
    expect(places.toSorted()).toEqual(must.toSorted());
    const wrong = aside.filter(({ file, row, reason }) => {
      const codes = truthAt.get(placeOf(file, row))?.messes.map(({ code }) => code) ?? [];
      return !codes.some((code) => reasonsFor[code]?.test(reason));
    });
    expect(wrong).toEqual([]);
  });
});

/** Columns that a shop does not write, by its files. */
const unwritten: readonly (readonly [file: RegExp, column: string])[] = [
  [/^trailer_yard/, 'technician_key'],
  [/^dh_defects/, 'failure_id'],
];

/** Whole kilometres are at most half of one off. */
const leeway = (column: string): number => (column === 'miles' ? 0.32 : 1e-9);

function differs(column: string, kept: string | number | null, meant: string | number | null | undefined): boolean {
  if (meant === null || meant === undefined || kept === null) return kept !== (meant ?? null);
  if (typeof meant === 'number') return Math.abs(Number(kept) - meant) > leeway(column);
  // A column for each part gives them in the order of its columns; roles are parted by spaces or by semicolons.
  const words = (text: string) => (column === 'replaced' ? text.split(';').toSorted() : text.split(/[; ]/)).join(' ');
  return words(String(kept)) !== words(meant);
}

describe('every row kept', () => {
  const kept = truth.filter(({ must }) => must !== 'set-aside');

  it.each(tableNames)('of %s says what its paper says, cell by cell', async (table) => {
    const rows = new Map(
      (await keptRows(engine, table)).map((row) => [placeOf(nameOf(report, row['file_id']), Number(row['line'])), row]),
    );
    const own = kept.filter((row) => row.table === table);
    expect(rows.size).toBe(own.length);
    const wrong = own.flatMap(({ place, paper, messes }) => {
      const row = rows.get(place);
      const remarks = messes.some(({ code }) => code === 'remark-with-traps');
      return recordTables[table].flatMap(({ name }) => {
        if (unwritten.some(([file, column]) => column === name && file.test(place))) return [];
        const meant = remarks && name === 'comment' ? Object.values(paper.written)[0] : paper.row[name];
        return !row || differs(name, row[name] ?? null, meant) ? [[place, name, row?.[name], meant]] : [];
      });
    });
    expect(wrong).toEqual([]);
  });
});

describe('every repair', () => {
  const repairs = new Map<string, string>();
  beforeAll(async () => {
    await livesFromRecords(engine, report, proceduresOf(report));
    const found = await engine.query(sql`select file_id, line, rule from mileage_repairs`);
    const { file_id: files, line: lines, rule: rules } = found.columns;
    for (let row = 0; row < found.rows; row++)
      repairs.set(placeOf(nameOf(report, files?.[row]), Number(lines?.[row])), String(rules?.[row]));
  }, 120_000);

  it('of miles is made and listed, and no others are', () => {
    const expected = truth.flatMap(({ place, must, table, messes }) => {
      const rules = messes.flatMap(({ code }) => rulesFor[code] ?? []);
      return must === 'set-aside' || rules.length === 0 || (table === 'units' && rules.includes('like-units'))
        ? []
        : [[place, rules] as const];
    });
    const wrong = expected.filter(([place, rules]) => !rules.includes(repairs.get(place) ?? 'none'));
    expect(wrong.map(([place, rules]) => [place, rules, repairs.get(place)])).toEqual([]);
    const known = new Set(expected.map(([place]) => place));
    expect([...repairs].filter(([place]) => !known.has(place))).toEqual([]);
  });

  it('of kilometres gives back the miles that were meant', async () => {
    const found = await engine.query(
      sql`select file_id, line, miles_used from mileage_repairs where rule = 'kilometres'`,
    );
    const used = new Map(
      Array.from({ length: found.rows }, (_, row) => [
        placeOf(nameOf(report, found.columns['file_id']?.[row]), Number(found.columns['line']?.[row])),
        Number(found.columns['miles_used']?.[row]),
      ]),
    );
    const written = made('kilometres-as-miles').filter(({ must }) => must !== 'set-aside');
    expect(used.size).toBe(written.length);
    const off = written.map(({ place, paper }) => Math.abs((used.get(place) ?? NaN) - Number(paper.tidy?.['miles'])));
    expect(Math.max(...off)).toBeLessThan(0.5);
  });

  it('of a number puts every row with the unit of today', async () => {
    const renamed = made('former-number').filter(({ must }) => must !== 'set-aside');
    for (const table of ['readings', 'services', 'inspections', 'failures'] as const) {
      const found = await engine.query(sql`select file_id, line, unit_id from ${identifier(`fleet_${table}`)}`);
      const units = new Map(
        Array.from({ length: found.rows }, (_, row) => [
          placeOf(nameOf(report, found.columns['file_id']?.[row]), Number(found.columns['line']?.[row])),
          found.columns['unit_id']?.[row],
        ]),
      );
      const own = renamed.filter((row: TrueRow) => row.table === (table as TableName));
      expect(own.filter(({ place, paper }) => units.get(place) !== paper.tidy?.['unit_id'])).toEqual([]);
    }
  });

  it('of a word that says nothing is counted', () => {
    const cells = made('cell-not-known').length;
    expect(report.messages.join()).toContain(`count as not known: ${cells} of services lubricant`);
  });
});
