import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { columnMapSchema } from '../../shared/column-map.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { lookAtSource, readRecords } from '../../lib/records/index.ts';
import type { SourceChoice } from '../../shared/source-choice.ts';
import { zipFile } from '../../data/demo/messy/zip-file.ts';
import { bookOf, plainRow, writtenFile } from './packing.ts';
import { accountOf, asideOf, counts, keptRows, source } from './sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

async function read(content: Uint8Array, choice: SourceChoice = {}, name = 'services.xlsx') {
  const report = await readRecords(engine, [source(name, content)], { choices: { [name]: choice } });
  const table = report.files[0]!.table ?? 'services';
  return { report, account: accountOf(report, name), messages: report.messages, kept: await keptRows(engine, table) };
}

const jobRows = [
  {
    ...{ service_id: 'a', unit_id: '007', axle: '1', side: 'left', date: '2024-02-29', miles: '100000.5', line: '6' },
    ...{ nut_backed_off: 'yes', replaced: 'seal;gasket', comment: 'as good as new' },
  },
  { service_id: 'b', unit_id: '008', date: '2024-03-01', miles: null, nut_backed_off: 'no', line: '7' },
  { service_id: 'f', comment: '<b>&amp; “quoted”, line one\nline two</b>', line: '12' },
];

describe('a workbook of another program', () => {
  it('is read below notes, titles and group headings, rows numbered as the sheet does', async () => {
    const { account, messages, kept } = await read(writtenFile('jobs-openpyxl.xlsx'));
    expect(counts(account)).toEqual([7, 3, 4]);
    expect(messages).toEqual(['services.xlsx was read from its sheet Jobs, headers in row 5']);
    expect([...kept].sort((a, b) => Number(a['line']) - Number(b['line']))).toMatchObject(jobRows);
  });

  it('has errors and formulas without a result set aside, with the reason', async () => {
    await read(writtenFile('jobs-openpyxl.xlsx'));
    const aside = await asideOf(engine);
    expect(aside.map(({ row, column, value }) => [row, column, value])).toEqual([
      [9, 'miles', '#DIV/0!'],
      [10, 'miles', '(formula)'],
      [11, 'axle', '(formula)'],
      [14, 'unit_id', ''],
    ]);
    expect(aside[0]!.reason).toMatch(/an error of the spreadsheet .* a division by zero/);
    expect(aside[1]!.reason).toMatch(/a formula without its result; open the workbook/);
    expect(aside[0]!.original).toBe('c,9,1,left,2024-03-02,#DIV/0!,,,');
  });

  it('gives the results that its formulas had when it was saved', async () => {
    const { account, kept } = await read(writtenFile('jobs-libreoffice.xlsx'));
    expect(counts(account)).toEqual([7, 4, 3]);
    // F6 + 1, which the program worked out.
    expect(kept.find((row) => row['service_id'] === 'd')).toMatchObject({ miles: '100001.5' });
    expect((await asideOf(engine)).map(({ row, column }) => [row, column])).toEqual([
      [9, 'miles'],
      [11, 'comment'],
      [14, 'unit_id'],
    ]);
  });

  it('may keep its texts in its cells', async () => {
    const { account, kept } = await read(writtenFile('inline.xlsx'));
    expect(counts(account)).toEqual([2999, 2999, 0]);
    // By the loop that wrote row 12 of it: s11, 11 % 7, 1 + 11 % 3, day 1 + 11 % 28.
    const row = kept.find(({ line }) => line === '12');
    expect(row).toMatchObject({ service_id: 's11', unit_id: '004', axle: '3', date: '2024-01-12' });
  });

  it('is taken apart where its sheets are named after tables, days counted from 1904 or not', async () => {
    const report = await readRecords(engine, [source('fleet.xlsx', writtenFile('jobs-1904.xlsx'))]);
    expect(report.files.map((file) => [file.name, file.table, ...counts(file)])).toEqual([
      ['fleet.xlsx/services', 'services', 3, 2, 1],
      ['fleet.xlsx/units', 'units', 1, 1, 0],
    ]);
    expect(new Set(report.files.map(({ fingerprint }) => fingerprint)).size).toBe(2);
    expect(await keptRows(engine, 'services')).toMatchObject([
      { service_id: 'a', date: '2024-02-29', miles: '1000.5', replaced: 'seal', comment: 'looks dry inside' },
      { service_id: 'c', date: '1999-12-31', comment: '7:45:00' },
    ]);
    expect(await asideOf(engine)).toMatchObject([{ file: 'fleet.xlsx/services', row: 3, value: '#DIV/0!' }]);
  });

  it('is taken apart alike where it is read from any place, as files on a disk are', async () => {
    const bytes = writtenFile('jobs-1904.xlsx');
    const part = (start: number, end: number) => source('', bytes.slice(start, end)).stream();
    const report = await readRecords(engine, [{ ...source('fleet.xlsx', bytes), part }]);
    expect(report.files.map((file) => [file.name, ...counts(file), file.refused])).toEqual([
      ['fleet.xlsx/services', 3, 2, 1, null],
      ['fleet.xlsx/units', 1, 1, 0, null],
    ]);
  });

  it('has no sheet of records that goes unread without a word', async () => {
    const sheets = {
      Notes: plainRow('Ask the office'),
      Jobs: plainRow('unit_id', 'axle_roles') + plainRow('1', 'steer'),
      'Jobs 2019': plainRow('unit_id', 'axle_roles') + plainRow('2', 'steer'),
      Losses: plainRow('a', 'b') + plainRow('1', '2'),
    };
    const map = (sheet: string) => ({
      ...{ version: 1, source: sheet, recognised: { headers: ['unit_id', 'axle_roles'] }, where: { sheet } },
      ...{ feeds: { table: 'units' }, dates: {}, numbers: { decimal: 'point' } },
      tables: { units: ['unit_id', 'axle_roles'].map((ours) => ({ ours, from: [{ header: ours }] })) },
    });
    const readWith = (...maps: object[]) =>
      readRecords(engine, [source('yard.xlsx', bookOf({ sheets }))], { maps: columnMapSchema.array().parse(maps) });
    // A map that names a sheet is not for another one, whatever its headers.
    expect(
      (await readWith(map('Jobs'))).files.map(({ name, kept, refused }) => [name, kept, refused === null]),
    ).toEqual([
      ['yard.xlsx/Jobs', 1, true],
      ['yard.xlsx/Jobs 2019', 0, false],
      ['yard.xlsx/Losses', 0, false],
    ]);
    const both = await readWith(map('Jobs'), map('Jobs 2019'));
    expect(both.files.map(({ kept }) => kept)).toEqual([1, 1, 0]);
  });

  it.each([
    ['jobs.ods', /an OpenDocument spreadsheet \(\.ods\); what can be read is XLSX/],
    ['jobs.xls', /of the old binary kind \(\.xls\), .* what can be read is XLSX/],
  ])('of another kind is refused: %s', async (name, why) => {
    const { account } = await read(writtenFile(name), {}, 'services.xlsx');
    expect(account).toMatchObject({ read: 0, refused: expect.stringMatching(why) as string });
  });
});

describe('a damaged sheet loses no row', () => {
  const numbered = (number: number, ...cells: readonly string[]) =>
    plainRow(...cells).replace('<row>', `<row r="${number}">`);
  const head = numbered(1, 'unit_id', 'axle_roles');
  const of = (rows: string) => read(bookOf({ sheets: { Units: head + rows } }), {}, 'units.xlsx');
  const roles = '<c r="B2" t="inlineStr"><is><t>steer</t></is></c>';
  const cell = (place: string) => `<row r="2"><c r="${place}" t="inlineStr"><is><t>x</t></is></c>${roles}</row>`;

  it('where rows have one number, and one id', async () => {
    const { account, kept } = await of(numbered(2, 'a', 'steer') + numbered(2, 'a', 'drive') + numbered(2, 'b', 'tag'));
    expect(counts(account)).toEqual([3, 2, 1]);
    expect(kept.map((row) => [row['unit_id'], row['line']])).toEqual([
      ['a', '2'],
      ['b', '4'],
    ]);
    expect(await asideOf(engine)).toMatchObject([{ row: 3, value: 'a', original: 'a,drive' }]);
  });

  it('where rows are numbered backward', async () => {
    const { account } = await read(
      bookOf({ sheets: { Units: numbered(9, 'Fleet') + head + numbered(2, 'a', 'steer') } }),
      {},
      'units.xlsx',
    );
    expect(counts(account)).toEqual([1, 1, 0]);
  });

  it.each([
    ['beyond all columns', cell('ZZZZZ2')],
    ['where another stands', cell('B2')],
  ])('where a cell stands %s', async (_, row) => {
    const { account } = await of(row + numbered(3, 'b', 'steer'));
    expect(counts(account)).toEqual([2, 1, 1]);
    const [aside] = await asideOf(engine);
    expect(aside).toMatchObject({ row: 2, reason: 'a cell stands beyond the last column, or where another stands' });
    expect(aside!.original).toMatch(/x.*steer|steer.*x/);
  });

  it.each([
    ['cells stand outside its rows', plainRow('a', 'steer').replaceAll(/<\/?row>/g, '')],
    ['a row of a sheet stands inside another', `<row><row></row>${roles}</row>`],
  ])('as it is refused whole: %s', async (why, rows) => {
    const { account } = await of(rows + numbered(3, 'b', 'steer'));
    expect(account).toMatchObject({ read: 0, refused: expect.stringContaining(why) as string });
  });
});

describe('of a workbook somebody may choose', () => {
  const head = ['unit_id', 'axle_roles'];
  const book = bookOf({
    sheets: {
      Notes: plainRow('Ask the office'),
      North: plainRow(...head) + plainRow('1', 'steer'),
      South: plainRow('Units', 'of the south') + plainRow(...head) + plainRow('2', 'drive') + plainRow('3', 'drive'),
    },
  });

  it('the sheet and the row of headers', async () => {
    const first = await read(book, {}, 'units.xlsx');
    expect(first.kept.map((row) => row['unit_id'])).toEqual(['1']);
    expect(first.messages).toEqual(['units.xlsx was read from its sheet North; not read: South']);
    const south = await read(book, { sheet: 'South' }, 'units.xlsx');
    expect(south.kept.map((row) => row['unit_id'])).toEqual(['2', '3']);
    const titles = await read(book, { sheet: 'South', headerRow: 1 }, 'units.xlsx');
    expect(titles.account.refused).toMatch(/has no column unit_id, .* found are Units, of the south/);
  });

  it('having looked at all of them', async () => {
    const { sheets } = await lookAtSource(source('units.xlsx', book));
    expect(sheets.map(({ name, likely, headerRow, rowCount }) => [name, likely, headerRow, rowCount])).toEqual([
      ['Notes', false, 1, 1],
      ['North', true, 1, 2],
      // Nothing in the sheet itself says that the first row is a title: its headers are tried in turn.
      ['South', true, 1, 4],
    ]);
    expect(sheets[2]!.rows[1]!.cells).toEqual(head);
  });

  it('but no sheet or row that is not there', async () => {
    const sheet = await read(book, { sheet: 'West' }, 'units.xlsx');
    expect(sheet.account.refused).toBe('has no sheet West; its sheets are Notes, North, South');
    const row = await read(book, { sheet: 'North', headerRow: 7 }, 'units.xlsx');
    expect(row.account.refused).toBe('has no row 7 that could hold headers');
  });
});

describe('cells of a sheet', () => {
  const cell = (attributes: string, inner: string) => `<c ${attributes}>${inner}</c>`;
  const rowsWith = (comment: string) =>
    plainRow('service_id', 'unit_id', 'axle', 'side', 'date', 'comment') +
    `<row>${['a', '1', '1', 'left', '2024-03-01'].map((text) => cell('t="str"', `<v>${text}</v>`)).join('')}${comment}</row>`;

  it.each([
    ['a number to its last digit', cell('', '<v>0.1</v>'), '0.1'],
    ['a number in powers of ten', cell('', '<v>1.5E-3</v>'), '0.0015'],
    ['yes', cell('t="b"', '<v>1</v>'), 'yes'],
    ['no', cell('t="b"', '<v>0</v>'), 'no'],
    ['neither yes nor no as it stands', cell('t="b"', '<v>perhaps</v>'), 'perhaps'],
    [
      'a day with more than a time behind it as it stands',
      cell('t="d"', '<v>2024-02-29 or so</v>'),
      '2024-02-29 or so',
    ],
    ['a day as text', cell('t="d"', '<v>2024-02-29T10:00:00</v>'), '2024-02-29'],
    ['runs of text, without how it is spoken', cell('t="s"', '<v>0</v>'), 'wheel end'],
    ['text with entities', cell('t="s"', '<v>1</v>'), 'a < b & "c" é'],
    ['text with escapes', cell('t="s"', '<v>2</v>'), 'one\rtwo'],
    ['text in a CDATA section', cell('t="s"', '<v>3</v>'), '<b>'],
    ['zeros that the format fills up', cell('s="1"', '<v>42</v>'), '00042'],
    ['a built-in day', cell('s="2"', '<v>45351</v>'), '2024-02-29'],
    ['a day by its own format', cell('s="3"', '<v>45351.999999999</v>'), '2024-03-01'],
    ['a span of hours', cell('s="4"', '<v>1.5</v>'), '36:00:00'],
    ['nothing', cell('t="s"', ''), null],
  ])('give %s', async (_, comment, value) => {
    const book = bookOf({
      sheets: { Sheet1: rowsWith(comment) },
      strings:
        '<si><r><t>wheel </t></r><r><rPr/><t>end</t></r><rPh sb="0" eb="1"><t>spoken</t></rPh></si>' +
        '<si><t>a &lt; b &amp; &quot;c&quot; &#233;</t></si><si><t>one_x000D_two</t></si><si><t><![CDATA[<b>]]></t></si>',
      styles:
        '<numFmts><numFmt numFmtId="170" formatCode="00000"/><numFmt numFmtId="171" formatCode="[$-409]d\\-mmm\\-yy;@"/>' +
        '<numFmt numFmtId="172" formatCode="[h]:mm"/></numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs>' +
        '<cellXfs><xf/><xf numFmtId="170"/><xf numFmtId="14"/><xf numFmtId="171"/><xf numFmtId="172"/></cellXfs>',
    });
    const { kept } = await read(book);
    expect(kept.map((row) => row['comment'])).toEqual([value]);
  });

  it.each([
    ['an error', cell('t="e"', '<v>#N/A</v>'), /not to be had/],
    ['an error not known here', cell('t="e"', '<v>#SPILL!</v>'), /its formula came to nothing/],
    ['a text that is not there', cell('t="s"', '<v>9</v>'), /points to a text that the workbook does not have/],
    ['a formula without its result', cell('', '<f>A1</f>'), /without its result/],
  ])('set their row aside for %s', async (_, comment, reason) => {
    const { account } = await read(bookOf({ sheets: { Sheet1: rowsWith(comment) } }));
    expect(counts(account)).toEqual([1, 0, 1]);
    expect(await asideOf(engine)).toMatchObject([{ row: 2, column: 'comment' }]);
    expect((await asideOf(engine))[0]!.reason).toMatch(reason);
  });

  it('beside the headers are named and not used', async () => {
    const book = bookOf({ sheets: { Sheet1: rowsWith(cell('', '') + cell('', '<v>7</v>')) } });
    const { account, messages } = await read(book);
    expect(counts(account)).toEqual([1, 1, 0]);
    expect(messages).toEqual(['services.xlsx has cells beside its headers, first in row 2; not used']);
  });

  it('may be longer than any text should be, at the cost of their row', async () => {
    const long = bookOf({
      sheets: { Sheet1: rowsWith(cell('t="str"', `<v>${'x'.repeat(10_000_000)}</v>`)) + plainRow('b') },
    });
    const { account } = await read(long);
    expect(counts(account)).toEqual([2, 0, 2]);
    expect((await asideOf(engine)).map(({ reason }) => reason)).toEqual([
      'a cell is too long',
      'blank where a value is needed',
    ]);
  });
});

describe('a sheet that says odd things of itself', () => {
  const head = plainRow('unit_id', 'axle_roles');
  const unit = (place: string, id: string) =>
    `<row ${place}><c t="str"><v>${id}</v></c><c t="str"><v>steer</v></c></row>`;

  it('may name its elements by a prefix and leave out where they stand', async () => {
    const prefixed = (head + unit('', '1')).replaceAll(/<(\/?)(\w)/g, '<$1x:$2');
    const { kept } = await read(bookOf({ sheets: { Sheet1: prefixed } }), {}, 'units.xlsx');
    expect(kept).toMatchObject([{ unit_id: '1', line: '2' }]);
  });

  it('may jump to rows and columns without end', async () => {
    const rows =
      head +
      unit('r="1048576"', '1') +
      unit('r="999999999999"', '2') +
      unit('r="-3"', '3') +
      '<row r="7"><c r="ZZZZZZZ7" t="str"><v>far</v></c></row>';
    const { account, kept } = await read(bookOf({ sheets: { Sheet1: rows } }), {}, 'units.xlsx');
    expect(counts(account)).toEqual([4, 3, 1]);
    // A row that says nothing sensible of where it stands follows the one before.
    expect(Object.fromEntries(kept.map((row) => [row['unit_id'], row['line']]))).toEqual({
      1: '1048576',
      2: '999999999999',
      3: '1000000000000',
    });
  });

  it('is refused where it breaks off', async () => {
    const whole = bookOf({ sheets: { Sheet1: `${head}${unit('', '1')}<row><c t="str"><v>` } });
    const { account } = await read(whole, {}, 'units.xlsx');
    expect(account.refused).toMatch(/damaged, cut short/);
    expect(account.read).toBe(0);
  });

  it('is refused where it has nothing', async () => {
    const { account } = await read(bookOf({ sheets: { Sheet1: '', Sheet2: '' } }), {}, 'units.xlsx');
    expect(account.refused).toBe('has nothing in its sheets; they are Sheet1, Sheet2');
  });
});

describe('a package that is no workbook to be read', () => {
  it.each([
    ['xl/workbook.bin', /a workbook of the binary kind \(\.xlsb\); what can be read/],
    ['word/document.xml', /a text document; what can be read/],
    ['ppt/presentation.xml', /a set of slides; what can be read/],
  ])('is refused by its kind: %s', async (part, why) => {
    const content = zipFile([
      { name: '[Content_Types].xml', content: '<Types/>' },
      { name: part, content: 'x' },
    ]);
    const { account } = await read(content);
    expect(account.refused).toMatch(why);
  });

  it('is refused where a part is missing', async () => {
    const content = zipFile([
      { name: '[Content_Types].xml', content: '<Types/>' },
      { name: 'xl/workbook.xml', content: '<workbook><sheets><sheet name="A" sheetId="1"/></sheets></workbook>' },
    ]);
    const { account } = await read(content);
    expect(account.refused).toMatch(/its part xl\/worksheets\/sheet1\.xml is missing/);
  });
});
