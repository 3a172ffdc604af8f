import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  darkTheme,
  figureDescription,
  figureSheet,
  findingCsv,
  findingTable,
  lightTheme,
  printTheme,
} from '../../lib/charts/index.ts';
import { csvCell } from '../../shared/csv-cell.ts';
import { wrapText } from '../../lib/charts/figure-sheet.ts';
import { textWidth } from '../../lib/charts/text-width.ts';
import { estimate, fourRates, handFinding, soaked, threeRoles } from './invented-findings.ts';
import { renderSvg } from './render.ts';

/** RFC 4180, read back: the outside check of what is written. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  for (const [, quoted, bare, end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|$)/g)) {
    rows.at(-1)?.push(quoted?.replaceAll('""', '"') ?? bare ?? '');
    if (end === '\r\n') rows.push([]);
    if (end === '') break;
  }
  return rows.filter((row) => row.length > 1);
}

describe('findingCsv', () => {
  const [header = [], ...rows] = readCsv(findingCsv(threeRoles()));
  const at = (row: number, name: string) => rows[row]?.[header.indexOf(name)];

  test('is one header and one row for each estimate of each group, all of one width', () => {
    expect(rows).toHaveLength(3);
    expect(rows.every((row) => row.length === header.length)).toBe(true);
    expect([at(0, 'question'), at(2, 'group'), at(2, 'estimate')]).toEqual(['seal-life', 'trailer', 'b10Life']);
  });

  test('writes all digits, and an open limit as an empty cell', () => {
    expect(at(2, 'value')).toBe('74000.5');
    expect([at(0, 'lower'), at(0, 'upper')]).toEqual(['150000', '']);
  });

  test('carries settings, fingerprint, cautions and that the records are invented with every row', () => {
    for (const row of rows.keys()) {
      expect(at(row, 'records')).toMatch(/^INVENTED/);
      expect(at(row, 'data_fingerprint')).toBe('abc123');
      expect(at(row, 'cautions')).toContain('clears a wheel end');
      expect(JSON.parse(at(row, 'settings') ?? '')).toMatchObject({ by: ['role'], horizonMiles: 100_000 });
    }
  });

  test('shows the wider of model and vehicle limits and keeps both', () => {
    const wide = { ...estimate(2, 1, 3, 'ratio'), vehicleLower: 0.5, vehicleUpper: 2.8 };
    const [names = [], row = []] = readCsv(
      findingCsv(handFinding('mean-miles', {}, [{ by: {}, estimates: { wide } }])),
    );
    const value = (name: string) => row[names.indexOf(name)];
    expect([value('lower'), value('upper')]).toEqual(['0.5', '3']);
    expect([value('method_lower'), value('vehicle_upper')]).toEqual(['1', '2.8']);
  });

  test('keeps a group without estimates', () => {
    const [names = [], row = []] = readCsv(findingCsv(handFinding('mean-miles', {}, [{ by: {}, estimates: {} }])));
    expect(row).toHaveLength(names.length);
    expect(row[names.indexOf('lives')]).toBe('100');
  });
});

describe('csvCell', () => {
  test.each([
    ['=1+1', "'=1+1"],
    ['+44', "'+44"],
    ['-x', "'-x"],
    ['@sum', "'@sum"],
    ['a,b', '"a,b"'],
    ['say "x"', '"say ""x"""'],
    ['two\nlines', '"two\nlines"'],
  ])('makes %j safe', (text, cell) => expect(csvCell(text)).toBe(cell));
  test('leaves a negative number a number', () => expect(csvCell(-1.5)).toBe('-1.5'));
});

describe('findingTable', () => {
  test('says units once in the head and follows the units chosen', () => {
    const us = findingTable(threeRoles(), 'us');
    const metric = findingTable(threeRoles(), 'metric');
    expect(us.columns.find(({ key }) => key === 'b10Life')).toMatchObject({ head: 'one in ten by', unit: 'mi' });
    const column = us.columns.findIndex(({ key }) => key === 'b10Life');
    expect(us.rows[1]?.cells[column]).toMatchObject({ text: '127,000', detail: '120,000–135,000' });
    // 127,000 mi × 1.609344 = 204,387 km.
    expect(metric.rows[1]?.cells[column]?.text).toBe('204,400');
    expect(metric.columns[column]?.unit).toBe('km');
  });

  test('says an open limit in words and a missing value with its reason', () => {
    const { columns, rows } = findingTable(fourRates(), 'us');
    const column = columns.findIndex(({ key }) => key === 'failuresPerMillionMiles');
    expect(rows[3]?.cells[column]).toMatchObject({ text: '—', note: 'no failure was seen', sort: null });
    const life = findingTable(threeRoles(), 'us');
    expect(life.rows[0]?.cells.some(({ detail }) => detail === 'from 150,000')).toBe(true);
  });

  test('has a column for each cut, in plain words', () => {
    const { columns, rows } = findingTable(fourRates(), 'us');
    expect(columns.slice(0, 2).map(({ head }) => head)).toEqual(['axle role', 'lubricant']);
    expect(rows[3]?.cells.slice(0, 2).map(({ text }) => text)).toEqual(['tag', 'not known']);
  });
});

describe('what goes with a figure', () => {
  test('the description says what is drawn, by what, with which limits, and what it comes to', () => {
    expect(figureDescription(threeRoles())).toBe(
      'Step lines of the share of seals still dry against distance since installation for each of 3 groups by axle role, with 95\u00a0% limits. One in ten has leaked by 74,000 miles.',
    );
  });

  test('the sheet carries question, answer, invented and cautions inside its frame', async () => {
    for (const finding of [threeRoles(), fourRates(), soaked()]) {
      const options = { width: 900, height: 480, theme: printTheme, unitSystem: 'us' } as const;
      const svg = await renderSvg(figureSheet(finding, options, 'Seals on all axles.'));
      for (const text of [
        finding.title,
        finding.answer,
        'Invented records',
        'Seals on all axles',
        'clears a wheel end',
        'abc123',
      ])
        expect(svg).toContain(text);
    }
  });

  test('wrapped lines fit their room and lose no word', () => {
    const text =
      'Seals on trailer axles in oil installed by any shop followed for 100,000 miles told apart by hub build';
    const lines = wrapText(text, 14, 220);
    expect(lines.join(' ')).toBe(text);
    for (const line of lines) expect(textWidth(line, 14)).toBeLessThanOrEqual(220);
  });
});

/** Relative luminance and contrast of WCAG 2.2 (success criterion 1.4.3, definitions). */
function contrast(a: string, b: string): number {
  const luminance = (colour: string) => {
    const [r = 0, g = 0, blue = 0] = [1, 3, 5]
      .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
      .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue;
  };
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

describe('themes', () => {
  test.each([
    ['light', lightTheme],
    ['dark', darkTheme],
    ['print', printTheme],
  ])('%s keeps 4.5:1 for text and 3:1 for lines', (_, theme) => {
    for (const ink of [theme.ink, theme.ink2, theme.accent])
      expect(contrast(ink, theme.paper)).toBeGreaterThanOrEqual(4.5);
    for (const line of theme.series) expect(contrast(line, theme.paper)).toBeGreaterThanOrEqual(3);
  });

  test.each([
    [lightTheme, 0],
    [darkTheme, 1],
    [printTheme, 2],
  ])('the style sheet holds the same values', (theme, block) => {
    const css = readFileSync(new URL('../../app/tokens.css', import.meta.url), 'utf8');
    const values = css.split(':root').slice(1)[block] ?? '';
    const value = (name: string) => new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(values)?.[1];
    expect([value('paper'), value('ink'), value('ink-2'), value('hair'), value('accent')]).toEqual([
      ...[theme.paper, theme.ink, theme.ink2, theme.hair, theme.accent],
    ]);
    expect(theme.series.map((_, index) => value(`s${index + 1}`))).toEqual(theme.series);
  });
});
