import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { lookAtSource, readRecords } from '../../lib/records/index.ts';
import { readSource } from '../../lib/records/source-rows.ts';
import type { SourceChoice } from '../../shared/source-choice.ts';
import { accountOf, asideOf, counts, keptRows, source } from './sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

async function read(content: string | Uint8Array, choice: SourceChoice = {}) {
  const report = await readRecords(engine, [source('units.csv', content)], { choices: { 'units.csv': choice } });
  const kept = await keptRows(engine, 'units');
  return { account: accountOf(report, 'units.csv'), messages: report.messages, kept };
}

/** Letters up to U+00FF are the same numbers in Latin-1 and in Windows-1252. */
const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

const head = 'unit_id,axle_roles,duty';
const rows = (count: number, duty = '') =>
  Array.from({ length: count }, (_, at) => `${at + 1},steer drive,${duty}\n`).join('');

describe('the delimiter is told', () => {
  it.each([
    [';', 'unit_id;axle_roles;duty\n1;steer;"a, b, c"\n2;steer;d, e, f, g\n'],
    [',', 'unit_id,axle_roles,duty\n1,steer;drive;drive,\n2,steer;drive;drive,x\n'],
    ['\t', 'unit_id\taxle_roles\tduty\n1\tsteer\t1,5;2,5|x\n2\tsteer\t1,5;2,5|x\n'],
    ['|', 'Report, of all units; north\nunit_id|axle_roles|duty\n1|steer|a,b\n2|steer|c,d\n'],
    ['; beside a long comment', `unit_id;axle_roles;duty\n1;steer;${'a, '.repeat(10_000)}\n2;steer;x\n`],
    ['one that the file names', 'sep=;\nunit_id;axle_roles;duty\n1;steer;a,b,c,d\n2;steer;a,b,c,d\n'],
  ])('%s', async (_, text) => {
    const { account, kept } = await read(text);
    expect(counts(account)).toEqual([2, 2, 0]);
    expect(kept.map((row) => row['unit_id'])).toEqual(['1', '2']);
  });
});

it('the delimiter is told where every cell is quoted and lists stand in many of them', async () => {
  const lists = Array.from({ length: 400 }, (_, at) => `"${at}","steer;drive;drive","a;b;c;d;e"`).join('\n');
  const { account } = await read(`"unit_id","axle_roles","duty"\n${lists}\n`);
  expect(counts(account)).toEqual([400, 400, 0]);
});

describe('headers are found', () => {
  it.each([
    ['below titles', `Fleet list\nNorth shop,,\nPrinted,2024-05-01,\n\n${head}\n`, 5],
    ['below titles of several words', `Fleet:,North\nBy:,Office\n${head}\n`, 3],
    ['below a headings row of groups', `unit,,\n${head}\n`, 2],
    ['below a blank line', `\n${head}\n`, 2],
  ])('%s, the rows keeping their numbers', async (_, top, headerRow) => {
    const { account, kept, messages } = await read(`${top}1,steer,x\n2,steer,y\n`);
    expect(counts(account)).toEqual([2, 2, 0]);
    expect(kept.map(({ line }) => Number(line))).toEqual([headerRow + 1, headerRow + 2]);
    expect(messages).toEqual(top.startsWith('\n') ? [] : [`units.csv has its headers in row ${headerRow}`]);
  });

  it('where somebody says they are', async () => {
    const text = `${head}\n1,steer,\n${head}\n2,steer,\n`;
    expect((await read(text, { headerRow: 3 })).kept.map((row) => row['unit_id'])).toEqual(['2']);
    expect((await read(text, { headerRow: 2 })).account.refused).toMatch(
      /has no column unit_id, .* found are 1, steer/,
    );
    expect((await read(text, { headerRow: 9 })).account.refused).toBe('has no row 9 that could hold headers');
    const deep = `${rows(5000)}${head}\n7,steer,\n`;
    expect((await read(deep, { headerRow: 5001 })).kept).toMatchObject([{ unit_id: '7', line: '5002' }]);
  });

  it('and shown to be chosen from', async () => {
    const { sheets } = await lookAtSource(source('x.csv', `Fleet list\n${head}\n1,steer,x\n`));
    expect(sheets).toMatchObject([{ name: '', headerRow: 2 }]);
    expect(sheets[0]!.rows.map(({ line }) => line)).toEqual([1, 2, 3]);
  });
});

describe('the encoding is told', () => {
  it.each([
    ['UTF-8', new TextEncoder().encode(`${head}\n1,steer,Zürich – “x”\n`)],
    ['UTF-8 with its mark', new TextEncoder().encode(`\uFEFF${head}\n1,steer,Zürich – “x”\n`)],
    // 0x96, 0x93 and 0x94 are the dash and the quotes of Windows-1252, by its table at unicode.org.
    ['Windows-1252', bytesOf(`${head}\n1,steer,Z\u00fcrich \u0096 \u0093x\u0094\n`)],
    ['UTF-16', new Uint8Array(Buffer.from(`\uFEFF${head}\n1,steer,Zürich – “x”\n`, 'utf16le'))],
  ])('%s', async (name, bytes) => {
    const { account, kept, messages } = await read(bytes);
    expect(counts(account)).toEqual([1, 1, 0]);
    expect(kept[0]!['duty']).toBe('Zürich – “x”');
    expect(messages).toEqual(
      name === 'Windows-1252'
        ? ['units.csv is not UTF-8, and was read as Windows-1252; where letters look wrong, save it as UTF-8']
        : [],
    );
  });

  it('Windows-1252 by a letter far down the file, in a quoted cell, and in headers', async () => {
    const wide = Array.from({ length: 20_000 }, (_, at) => `${at + 1},steer drive,,\n`).join('');
    const far = bytesOf(`${head},Bemerkung \u00fc\n${wide}z,steer,"say ""\u00e9""",\n`);
    const { account, kept } = await read(far);
    expect(counts(account)).toEqual([20_001, 20_001, 0]);
    expect(account.unusedColumns).toEqual(['Bemerkung ü']);
    expect(kept.find(({ line }) => line === '20002')!['duty']).toBe('say "é"');
    const late = await read(bytesOf(`${head}\n${rows(20_000)}z,steer,\u00e9\n`));
    expect(late.kept.find(({ line }) => line === '20002')!['duty']).toBe('é');
    expect(late.messages).toHaveLength(1);
  });

  it('without looking far ahead at each of a million broken lines', async () => {
    const million = `${head}\n${'"a\n'.repeat(1_000_000)}`;
    let broken = 0;
    const done = () => Promise.resolve();
    const sink = { width: 4, row: () => undefined, broken: () => broken++, full: false, send: done, finish: done };
    const wanted = { openRows: () => Promise.resolve(sink), choice: {}, say: () => undefined };
    expect((await readSource(source('units.csv', million), wanted)).outcome).toBeNull();
    expect(broken).toBe(1_000_000);
  });

  it('UTF-8 where letters cut apart are fewer than whole ones: their rows are set aside', async () => {
    const cut = new Uint8Array([
      ...bytesOf(`${head}\n1,steer,Z\u00c3\n`),
      ...new TextEncoder().encode(rows(5, 'Zürich')),
    ]);
    const { account, messages } = await read(cut);
    expect(counts(account)).toEqual([6, 5, 1]);
    expect(await asideOf(engine)).toMatchObject([{ row: 2, column: 'duty', reason: 'not readable as UTF-8 text' }]);
    expect(messages).toEqual([]);
  });
});
