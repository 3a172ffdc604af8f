import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { csvCell, csvText, readRecords, setAsideCsv } from '../../lib/records/index.ts';
import { source } from './sources.ts';

describe('a cell', () => {
  // RFC 4180, section 2, rules 5 to 7.
  it.each([
    ['plain', 'plain'],
    ['a,b', '"a,b"'],
    ['say "so"', '"say ""so"""'],
    ['two\nlines', '"two\nlines"'],
    ['', ''],
    [null, ''],
    [-5, '-5'],
    [1.5, '1.5'],
  ])('%j is written %j', (value, written) => expect(csvCell(value)).toBe(written));

  it.each(['=1+1', '+1', '-5', '@SUM(A1)', '\t=1', '\r=1', '=HYPERLINK("x","y")'])(
    'that a spreadsheet might run, %j, is made harmless',
    (value) => expect(csvCell(value)).toMatch(/^"?'/),
  );

  it.each(['=1', "'=1", "''=1", "'plain", "it's", '-5', "'", "'@x"])(
    'comes back as it was given where the one apostrophe is taken away: %j',
    (given) => {
      const written = csvCell(given);
      expect(/^'+[=+\-@\t\r]/.test(written) ? written.slice(1) : written).toBe(given);
    },
  );
});

it('a table is written with its headers, each line ended by CRLF', () => {
  expect(
    csvText(
      ['a', 'b'],
      [
        [1, 'x'],
        [null, '=y'],
      ],
    ),
  ).toBe("a,b\r\n1,x\r\n,'=y\r\n");
});

describe('rows set aside', () => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await openNodeEngine({ threads: 1 });
  });
  afterAll(() => engine.close());

  const written = async () => {
    const parts: string[] = [];
    for await (const part of setAsideCsv(engine)) parts.push(part);
    return parts.join('');
  };

  it('are written in full, harmless, in the order of files and rows', async () => {
    const text = 'unit_id,axle_roles\n=cmd(),"=x\n"\n1,steer\n2,\n';
    await readRecords(engine, [source('units.csv', text), source('services.csv', 'x')]);
    expect(await written()).toBe(
      'file,row,column,value,reason,accepted,original\r\n' +
        'units.csv,2,axle_roles,"\'=x\n","holds a word that is none of this column, or no word at all",' +
        '"words with "";"" or spaces between them, each one of steer, drive, tag, pusher, lift, trailer",' +
        '"\'=cmd(),""=x\n"""\r\n' +
        'units.csv,5,axle_roles,,blank where a value is needed,' +
        '"words with "";"" or spaces between them, each one of steer, drive, tag, pusher, lift, trailer","2,"\r\n',
    );
  });

  it('are written to the last of them where they are many', async () => {
    const rows = Array.from({ length: 25_000 }, (_, row) => `u${row},none`);
    await readRecords(engine, [source('units.csv', `unit_id,axle_roles\n${rows.join('\n')}\n`)]);
    const lines = (await written()).trimEnd().split('\r\n');
    expect(lines).toHaveLength(25_001);
    expect(lines.at(-1)).toMatch(/^units.csv,25001,axle_roles,none,/);
    expect(new Set(lines).size).toBe(25_001);
  });
});
