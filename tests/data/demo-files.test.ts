import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { tableNames, tableOfFile } from '../../shared/record-tables.ts';
import { demoFilePieces, demoFiles } from '../../data/demo/demo-files.ts';
import { demoRows } from '../../data/demo/demo-units.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';

const folder = new URL('../../data/demo-fleet/', import.meta.url);
const MEGABYTE = 1_000_000;

describe('the shipped demo fleet', () => {
  const files = demoFiles(generateDemoFleet());

  it('is what the generator makes, file for file', () => {
    expect(readdirSync(folder).sort()).toEqual(files.map(({ name }) => name).sort());
    for (const { name, text } of files) expect(readFileSync(new URL(name, folder), 'utf8') === text, name).toBe(true);
  });

  it('stays under 5 MB', () => {
    expect(files.reduce((bytes, { text }) => bytes + Buffer.byteLength(text), 0)).toBeLessThan(5 * MEGABYTE);
  });

  it('has files named after every table, several for services and failures', () => {
    const perTable = (table: string) =>
      files.filter(({ name }) => name.endsWith('.csv') && tableOfFile(name) === table);
    for (const table of tableNames) expect(perTable(table).length).toBeGreaterThanOrEqual(1);
    expect(perTable('services')).toHaveLength(6);
    expect(perTable('failures')).toHaveLength(5);
    expect(tableOfFile('truth-lives.csv')).toBeNull();
  });

  it('quotes nothing it need not: as many cells a line as headers', () => {
    for (const { name, text } of files.filter((file) => file.name.endsWith('.csv'))) {
      const [header = '', ...lines] = text
        .trimEnd()
        .split('\n')
        .filter((line) => !line.includes('"'));
      const cells = header.split(',').length;
      expect(
        lines.filter((line) => line.split(',').length !== cells),
        name,
      ).toEqual([]);
      expect(lines.length).toBeGreaterThan(0);
    }
  });
});

describe('demoFilePieces', () => {
  it('appended, are the files of the fleet in memory', () => {
    const options = { units: 300, seed: 5 };
    const texts = new Map<string, string>();
    for (const { name, text } of demoFilePieces(options)) texts.set(name, (texts.get(name) ?? '') + text);
    const whole = demoFiles(generateDemoFleet(options));
    expect([...texts.keys()].sort()).toEqual(whole.map(({ name }) => name).sort());
    for (const { name, text } of whole) expect(texts.get(name) === text, name).toBe(true);
  });
});

describe('generateDemoFleet', () => {
  it('makes the same fleet for a seed and another for the next', () => {
    const small = (seed: number) => generateDemoFleet({ units: 20, seed });
    expect(small(3)).toEqual(small(3));
    expect(small(3).services).not.toEqual(small(4).services);
  });

  it('keeps its first units when more are asked for', () => {
    const few = generateDemoFleet({ units: 20, seed: 3 });
    const more = generateDemoFleet({ units: 40, seed: 3 });
    expect(more.services.slice(0, few.services.length)).toEqual(few.services);
    expect(more.units).toHaveLength(40);
  });

  it('can be read a table at a time', () => {
    const options = { units: 25, seed: 8 };
    expect([...demoRows('failures', options)]).toEqual(generateDemoFleet(options).failures);
  });

  it('refuses what is no size or no seed', () => {
    expect(() => generateDemoFleet({ units: 0 })).toThrow(/units must be a whole number of at least 1: 0/);
    expect(() => generateDemoFleet({ units: 2.5 })).toThrow(RangeError);
    expect(() => generateDemoFleet({ seed: 0.5 })).toThrow(/seed must be a whole number: 0.5/);
  });
});
