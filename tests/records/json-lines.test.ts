import { gzipSync } from 'node:zlib';
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

async function read(content: string | Uint8Array, pieceBytes?: number) {
  const name = 'services.jsonl';
  const report = await readRecords(engine, [source(name, content, pieceBytes)]);
  const kept = await keptRows(engine, 'services');
  return { account: accountOf(report, name), kept, aside: await asideOf(engine) };
}

const job = (id: string, more: object = {}) =>
  JSON.stringify({ service_id: id, unit_id: '007', axle: 1, side: 'left', date: '2024-02-29', ...more });

describe('JSON lines', () => {
  it('give numbers, yes and no, lists of words and what lies within', async () => {
    const { account, kept } = await read(
      `${job('a', { miles: 1000.5, nut_backed_off: true, replaced: ['seal', 'gasket'], shop: null })}\n` +
        `${job('ç', { nut_backed_off: false, replaced: [], order: { id: 'x', lines: [{ n: 1 }] } })}\r\n`,
    );
    expect(counts(account)).toEqual([2, 2, 0]);
    expect(account.unusedColumns).toEqual(['order.id', 'order.lines']);
    expect(kept).toMatchObject([
      { service_id: 'a', axle: '1', miles: '1000.5', nut_backed_off: 'yes', replaced: 'seal;gasket', line: '1' },
      { service_id: 'ç', nut_backed_off: 'no', replaced: null, shop: null, line: '2' },
    ]);
  });

  it('may have a name come up on the last line only', async () => {
    const many = Array.from({ length: 9000 }, (_, at) => job(`s${at}`)).join('\n');
    const { account, kept } = await read(`${many}\n${job('last', { miles: 7 })}`);
    expect(counts(account)).toEqual([9001, 9001, 0]);
    expect(kept.find((row) => row['service_id'] === 'last')!['miles']).toBe('7.0');
  });

  it('are read the same however the bytes arrive', async () => {
    const text = `\uFEFF${job('a', { comment: 'ü\n"x"' })}\n\n{"broken\n${job('b')}`;
    const whole = await read(text);
    expect(counts(whole.account)).toEqual([3, 2, 1]);
    expect(whole.kept.map(({ line }) => line)).toEqual(['1', '4']);
    for (const pieceBytes of [1, 7]) expect(await read(text, pieceBytes)).toEqual(whole);
  });

  it('may be in gzip', async () => {
    const { account } = await read(new Uint8Array(gzipSync(`${job('a')}\n`)));
    expect(counts(account)).toEqual([1, 1, 0]);
  });

  it.each([
    ['broken', '{"service_id": "x", ', 'not readable as JSON'],
    ['no object', '[1, 2]', 'not an object of names and values'],
    ['words', 'total 7', 'not readable as JSON'],
    ['too long', `{"comment":"${'x'.repeat(3_000_000)}"}`, 'the line is too long for a row'],
    ['nested without end', `{"a":${'['.repeat(200_000)}${']'.repeat(200_000)}}`, 'not readable as JSON'],
  ])('lose one line where it is %s', async (_, line, reason) => {
    const { account, aside } = await read(`${job('a')}\n${line}\n${job('b')}\n`);
    expect(counts(account)).toEqual([3, 2, 1]);
    expect(aside).toMatchObject([{ row: 2, column: '', reason }]);
    expect(line.startsWith(aside[0]!.original)).toBe(true);
  });

  it('set a row aside that gives a name twice, at whatever depth, rather than take the last', async () => {
    const twice = job('b').replace('"side":"left"', '"side":"left","side":"right"');
    // \u0073ide is side once it is read; names in other objects, and texts that look like names, are no second time.
    const hidden = job('c').replace('"side":"left"', '"side":"left","\\u0073ide":"right"');
    const within = job('d', { order: [{ id: 1 }] }).replace('"id":1', '"id":1,"id":2');
    const sound = job('e', { order: { side: 'x' }, comment: '"side": "side":', shop: 'side' });
    const { account, aside, kept } = await read([job('a'), twice, hidden, within, sound].join('\n'));
    expect(counts(account)).toEqual([5, 2, 3]);
    expect(kept.map(({ service_id: id }) => id)).toEqual(['a', 'e']);
    expect(aside.map(({ row, reason, accepted, original }) => [row, reason, accepted, original])).toEqual([
      [2, 'gives "side" twice', 'each name once in an object', twice],
      [3, 'gives "side" twice', 'each name once in an object', hidden],
      [4, 'gives "id" twice', 'each name once in an object', within],
    ]);
  });

  it('set a row aside whose column is named outside and inside another', async () => {
    const line = job('a', { 'unit.id': 'x' }).replace('"unit_id":"007"', '"unit":{"id":"y"},"unit_id":"007"');
    const { account, aside } = await read(`${line}\n`);
    // Nothing reads that column, and what is not read sets nothing aside.
    expect([counts(account), aside]).toEqual([[1, 1, 0], []]);
  });

  it('set aside a whole number that JSON cannot bring over exactly', async () => {
    const { aside } = await read(`${job('a')}\n{"service_id":12345678901234567890,"unit_id":"1"}\n`);
    expect(aside).toMatchObject([{ column: 'service_id', reason: 'a whole number too long to be read exactly' }]);
  });

  it.each([
    ['one list', `[\n${job('a')},\n${job('b')}\n]`, /is one JSON list; in JSON lines each object stands on a line/],
    ['one object over several lines', JSON.stringify({ a: 1, b: [2] }, null, 2), /holds no JSON objects, one on each/],
    [
      'names without end',
      Array.from({ length: 2001 }, (_, at) => `{"n${at}":1}`).join('\n'),
      /more than 2000 different/,
    ],
    ['without a needed name', '{"a":1}', /has no column service_id, .* the headers found are a$/],
  ])('are refused as %s', async (_, text, why) => {
    const { account } = await read(text);
    expect(account).toMatchObject({ read: 0, refused: expect.stringMatching(why) as string });
  });
});
