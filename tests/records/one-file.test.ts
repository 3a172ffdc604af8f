import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { readRecords } from '../../lib/records/index.ts';
import { accountOf, asideOf, counts, keptRows, source } from './sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

/** Reads one file; gives its account, what was set aside and the values kept of one column. */
async function read(name: string, content: string | Uint8Array, column = 'service_id', pieceBytes?: number) {
  const report = await readRecords(engine, [source(name, content, pieceBytes)]);
  const table = report.files[0]!.table;
  const rows = table === null ? [] : await keptRows(engine, table);
  return {
    account: accountOf(report, name),
    counts: counts(accountOf(report, name)),
    kept: rows.map((row) => row[column]),
    lines: rows.map((row) => row['line']),
    aside: await asideOf(engine),
    messages: report.messages,
  };
}

const head = 'service_id,unit_id,axle,side,date,comment';
const good = (id: string, comment = '') => `${id},u1,1,left,2024-03-01,${comment}`;

describe('lines of a CSV', () => {
  it('are counted from the header, blank ones passed over', async () => {
    const { counts, lines } = await read('services.csv', `\n  \n${head}\n\n${good('a')}\n\t \n${good('b')}`);
    expect(counts).toEqual([2, 2, 0]);
    expect(lines).toEqual(['5', '7']);
  });

  it('end in CR, LF or both, mixed as they may be', async () => {
    const { kept, lines } = await read(
      'services.csv',
      `${head}\r${good('a')}\r\n${good('b')}\n${good('c')}\r\r\n${good('d')}`,
    );
    expect(kept).toEqual(['a', 'b', 'c', 'd']);
    expect(lines).toEqual(['2', '3', '4', '6']);
  });

  it('may run on inside quotes, the next row keeping its right line', async () => {
    const { kept, lines, counts } = await read(
      'services.csv',
      `${head}\n${good('a', '"one\ntwo\r\nthree"')}\n${good('b', '"say ""so"""')}\n`,
      'comment',
    );
    expect(kept).toEqual(['one\ntwo\r\nthree', 'say "so"']);
    expect(lines).toEqual(['2', '5']);
    expect(counts).toEqual([2, 2, 0]);
  });

  it('are the same however the bytes arrive', async () => {
    const text = `\uFEFF${head}\r\n${good('a', '"ü\r\n""x"""')}\r\n${good('b')},,\r\n${good('ç')},extra\r\n"open\r\n${good('d')}`;
    const whole = await read('services.csv', text);
    expect(whole.counts).toEqual([5, 3, 2]);
    for (const pieceBytes of [1, 2, 3, 7]) {
      const pieces = await read('services.csv', text, 'service_id', pieceBytes);
      expect(pieces).toEqual(whole);
    }
  });
});

describe('a row is set aside', () => {
  it.each([
    ['too few cells', 'x,u1,1,left', '', 'has 4 cells for 6 headers'],
    ['too many cells', `${good('x')},y`, '', 'has 7 cells for 6 headers'],
    ['nothing but delimiters', ',,,,,', 'service_id', 'blank where a value is needed'],
    ['a blank where a value is needed', 'x,u1,1,left,,', 'date', 'blank where a value is needed'],
    ['a word outside the vocabulary', 'x,u1,1,middle,2024-03-01,', 'side', 'not a word of this column'],
    ['a day that is none', 'x,u1,1,left,2024-02-30,', 'date', 'no day of the calendar'],
    ['a day in another order', 'x,u1,1,left,01/03/2024,', 'date', 'not a day written YYYY-MM-DD'],
    ['a placeholder day', 'x,u1,1,left,9999-12-31,', 'date', 'a year outside those that records can mean'],
    ['a fraction for a whole number', 'x,u1,1.5,left,2024-03-01,', 'axle', 'not a whole number'],
    ['text for a number', 'x,u1,one,left,2024-03-01,', 'axle', 'not a number'],
    ['a number beyond its bounds', 'x,u1,21,left,2024-03-01,', 'axle', 'more than the most that can be meant'],
    ['text behind a closing quote', 'x,"u1"z,1,left,2024-03-01,', '', 'text stands behind a closing quote'],
  ])('for %s', async (_, row, column, reason) => {
    const { counts, aside, kept } = await read('services.csv', `${head}\n${good('a')}\n${row}\n${good('b')}\n`);
    expect(counts).toEqual([3, 2, 1]);
    expect(kept).toEqual(['a', 'b']);
    expect(aside).toEqual([expect.objectContaining({ file: 'services.csv', row: 3, column, reason, original: row })]);
    expect(aside[0]!.accepted).not.toBe('');
  });

  it('with the value as it stood and the words that would be accepted', async () => {
    const { aside } = await read('services.csv', `${head}\nx,u1,1," Left side ",2024-03-01,\n`);
    expect(aside).toEqual([
      {
        file: 'services.csv',
        row: 2,
        column: 'side',
        value: ' Left side ',
        reason: 'not a word of this column',
        accepted: 'one of left, right',
        original: 'x,u1,1," Left side ",2024-03-01,',
      },
    ]);
  });

  it('for a letter cut apart in UTF-8, and for a byte of zero', async () => {
    const text = `${head}\n${good('a', 'caf\u00c3')}\n${good('b', 'ol\u00c3\u00a9')}\n${good('c', 'x\0y')}\n`;
    const utf8 = Uint8Array.from(`${text}${good('d', '\u00c3\u00bc')}\n`, (letter) => letter.charCodeAt(0));
    const { counts, aside, messages } = await read('services.csv', utf8);
    expect(messages).toEqual([]);
    expect(counts).toEqual([4, 2, 2]);
    expect(aside.map(({ row, column, reason }) => [row, column, reason])).toEqual([
      [2, 'comment', 'not readable as UTF-8 text'],
      [4, 'comment', 'a byte of zero inside the text'],
    ]);
  });

  it('for a bad cell in a column that may be blank, too', async () => {
    const { aside } = await read('services.csv', `${head},miles\n${good('a')},12 000\n${good('b')},\n`);
    expect(aside).toEqual([
      expect.objectContaining({ row: 2, column: 'miles', value: '12 000', reason: 'not a number' }),
    ]);
  });
});

describe('an unclosed quote costs its first line only', () => {
  const rows = ['b', 'c', 'd', 'e'].map((id) => good(id, `"${id}"`)).join('\n');

  it.each([
    ['before quoted cells', `${good('a', '"oops')}\n${rows}`],
    ['at the end of the file', `${rows}\n${good('a', '"oops')}`],
    ['with a line end behind it', `${rows}\n${good('a', '"oops')}\n`],
    ['where a later line closes it by chance', `${good('a', '"oops')}\n${rows}\n`.replace('"d"', 'd"')],
    ['in the first cell', `"${good('a')}\n${rows}`],
    ['alone in its cell', `${good('a', '"')}\n${rows.replaceAll('"', '')}\n`],
  ])('%s', async (_, text) => {
    const { counts, kept, aside } = await read('services.csv', `${head}\n${text}`);
    expect(counts).toEqual([5, 4, 1]);
    expect(kept).toEqual(['b', 'c', 'd', 'e']);
    expect(aside[0]!.reason).toMatch(/quote/);
    expect(aside[0]!.original).toMatch(/a,u1/);
  });

  it('in a file of a hundred thousand rows', async () => {
    const many = Array.from({ length: 100_000 }, (_, row) =>
      good(`s${row}`, row === 500 ? '"oops' : row % 7 ? '' : '"ok, fine"'),
    );
    const { counts, aside } = await read('services.csv', `${head}\n${many.join('\n')}\n`);
    expect(counts).toEqual([100_000, 99_999, 1]);
    expect(aside.map(({ row }) => row)).toEqual([502]);
  });
});

describe('cells', () => {
  it('are trimmed, words matched in any case, lists put in one form', async () => {
    const text = `unit_id,axle_roles,unit_kind,former_ids\n 007 ,Steer  drive;DRIVE , TRACTOR,"0001; 2 ;"\n`;
    await readRecords(engine, [source('units.csv', text)]);
    expect(await keptRows(engine, 'units')).toEqual([
      expect.objectContaining({
        unit_id: '007',
        axle_roles: 'steer;drive;drive',
        unit_kind: 'tractor',
        former_ids: '0001;2',
        acquired: null,
        in_service_date: null,
        file_id: '0',
        line: '2',
      }),
    ]);
  });

  it.each([
    ['12', 12],
    ['+12.50', 12.5],
    ['.5', 0.5],
    ['7.', 7],
    ['1e3', 1000],
    ['1.2E+2', 120],
    ['-0', 0],
    ['0.1', 0.1],
    ['123456.789012345678', 123456.789012345678],
    [' 5 ', 5],
  ])('read the number %s', async (text, value) => {
    const { kept } = await read('services.csv', `${head},miles\n${good('a')},${text}\n`, 'miles');
    expect(kept.map(Number)).toEqual([value]);
  });

  it.each([
    '1,000',
    '1 000',
    '0x10',
    'NaN',
    'Infinity',
    '-1',
    '1e400',
    '10000001',
    '1..2',
    '.',
    '+',
    '1e',
    '１２',
    '--1',
    '12mi',
  ])('refuse the number %s', async (text) => {
    const { aside } = await read('services.csv', `${head},miles\n${good('a')},"${text}"\n`);
    expect(aside).toEqual([expect.objectContaining({ column: 'miles', value: text })]);
  });

  it.each([
    ['2024-02-29', '2024-02-29'],
    ['2000-02-29', '2000-02-29'],
    ['1950-01-01', '1950-01-01'],
    ['2099-12-31', '2099-12-31'],
    ['2024-03-01T23:59:59Z', '2024-03-01'],
    ['2024-03-01 7:05', '2024-03-01'],
    ['2024-03-01 00:00:00.000 +02:00', '2024-03-01'],
  ])('read the day %s', async (text, value) => {
    const { kept } = await read('services.csv', `${head}\na,u1,1,left,${text},\n`, 'date');
    expect(kept).toEqual([value]);
  });

  // 2100, 1900 and 2023 are no leap years.
  it.each([
    '2023-02-29',
    '2024-13-01',
    '2024-00-10',
    '2024-04-31',
    '2024-1-1',
    '20240301',
    '2024-03-01x',
    '2024/03/01',
    '1949-12-31',
    '2100-02-29',
    '2024-03-01T',
    '2024-03-0１',
  ])('refuse the day %s', async (text) => {
    const { aside } = await read('services.csv', `${head}\na,u1,1,left,${text},\n`);
    expect(aside).toEqual([expect.objectContaining({ column: 'date', value: text })]);
  });

  it('keep text of any script, and lose no-break spaces at its ends only', async () => {
    const { kept } = await read('services.csv', `${head}\n${good('a', '\u00a0軸 – 🚛\u00a0x ')}\n`, 'comment');
    expect(kept).toEqual(['軸 – 🚛\u00a0x']);
  });

  it('refuse a list with a word that is none, and a needed list with no word', async () => {
    const { aside } = await read('units.csv', 'unit_id,axle_roles\n1,steer;drove\n2,;;\n3,steer\n');
    expect(aside.map(({ row, column, value }) => [row, column, value])).toEqual([
      [2, 'axle_roles', 'steer;drove'],
      [3, 'axle_roles', ';;'],
    ]);
  });
});
