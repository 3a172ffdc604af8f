import { pick, pickWeighed, whole } from '../pick.ts';
import type { TextTable } from '../valid-tables.ts';
import { cellTexts, type CellText } from './cell-texts.ts';
import type { TableMutation } from './mutation.ts';

type Row = readonly string[];

const withRow = (table: TextTable, at: number, row: Row): TextTable => ({ ...table, rows: table.rows.with(at, row) });

const spoiltCell = ({ name, of, weight = 1 }: CellText): TableMutation => ({
  name: `cell: ${name}`,
  weight,
  apply(table, random) {
    let spoilt = table;
    for (let times = name === '10 MB' ? 1 : whole(random, 1, 3); times > 0; times--) {
      const at = random.below(table.rows.length);
      const row = spoilt.rows[at]!;
      const column = random.below(row.length);
      spoilt = withRow(spoilt, at, row.with(column, of(random, row[column]!)));
    }
    return spoilt;
  },
});

const inRows = (name: string, apply: TableMutation['apply'], weight = 1): TableMutation => ({
  name: `rows: ${name}`,
  weight,
  apply,
});
const inHeaders = (name: string, apply: TableMutation['apply']): TableMutation => ({
  name: `headers: ${name}`,
  apply,
  mayRefuse: true,
});

const anyRow = ({ rows }: TextTable, random: { below(count: number): number }): number => random.below(rows.length);

/** Ways to spoil a table whatever file it is written to. */
export const tableMutations: readonly TableMutation[] = [
  ...cellTexts.map(spoiltCell),
  inRows('the same row again', (table, random) => {
    const row = table.rows[anyRow(table, random)]!;
    return { ...table, rows: table.rows.toSpliced(anyRow(table, random), 0, row) };
  }),
  inRows('the same id again', (table, random) => {
    const [from, to] = [anyRow(table, random), anyRow(table, random)];
    return withRow(table, to, table.rows[to]!.with(0, table.rows[from]![0]!));
  }),
  inRows(
    'a row of blanks',
    (table, random) => ({
      ...table,
      rows: table.rows.toSpliced(
        anyRow(table, random),
        0,
        table.headers.map(() => ''),
      ),
    }),
    0.5,
  ),
  inRows(
    'the headers again',
    (table, random) => ({
      ...table,
      rows: table.rows.toSpliced(anyRow(table, random), 0, table.headers),
    }),
    0.5,
  ),
  inRows('in another order', (table) => ({ ...table, rows: table.rows.toReversed() }), 0.3),
  inRows('cells that changed places', (table, random) => {
    const at = anyRow(table, random);
    const row = table.rows[at]!;
    const by = whole(random, 1, row.length);
    return withRow(table, at, [...row.slice(by), ...row.slice(0, by)]);
  }),
  inRows(
    'many',
    (table) => ({ ...table, rows: Array.from({ length: 400 }, (_, at) => table.rows[at % table.rows.length]!) }),
    0.3,
  ),
  inHeaders('hundreds of columns', (table, random) => {
    const more = Array.from({ length: whole(random, 300, 600) }, (_, at) => `extra ${at}`);
    return {
      ...table,
      headers: [...table.headers, ...more],
      rows: table.rows.map((row) => [...row, ...more.map((_, at) => (at % 97 === 0 ? 'x' : ''))]),
    };
  }),
  inHeaders('one twice', (table, random) => {
    const name = pick(random, table.headers);
    return {
      ...table,
      headers: [...table.headers, name],
      rows: table.rows.map((row) => [...row, pick(random, ['', 'x', row[0]!])]),
    };
  }),
  inHeaders('one gone', (table, random) => {
    const at = random.below(table.headers.length);
    return { ...table, headers: table.headers.toSpliced(at, 1), rows: table.rows.map((row) => row.toSpliced(at, 1)) };
  }),
  inHeaders('one spoilt', (table, random) => {
    const at = random.below(table.headers.length);
    const text = pickWeighed(
      random,
      cellTexts.filter(({ name }) => name !== '10 MB'),
    ).of(random, table.headers[at]!);
    return { ...table, headers: table.headers.with(at, text) };
  }),
  inHeaders('in capitals and spaces', (table, random) => ({
    ...table,
    headers: table.headers.map((header) => (random.chance(0.5) ? ` ${header.toUpperCase()} ` : header)),
  })),
  inHeaders('named as programs name things', (table, random) => ({
    ...table,
    headers: [
      ...table.headers,
      ...['__proto__', 'constructor', 'file_id', 'line', 'row', 'rowid'].slice(random.below(6)),
    ],
    rows: table.rows.map((row) => [...row, ...['1', '2', '3', '4', '5', '6'].slice(6 - (row.length % 3))]),
  })),
];
