import { describe, expect, it } from 'vitest';
import { distinctHeaders, headerRows, headersAt, looksLikeRecords } from '../../lib/records/header-row.ts';

const table = (...rows: string[][]) => rows.map((cells, at) => ({ line: at + 1, cells }));

describe('the likeliest row of headers', () => {
  it.each([
    ['the first of a plain table', 1, table(['unit', 'date'], ['1', '2024-01-01'], ['2', '2024-01-02'])],
    [
      'as wide as the rows below',
      3,
      table(['Fleet', ''], ['as of', '2024-05-01'], ['unit', 'date'], ['1', '2024-01-01']),
    ],
    ['no row of words twice', 1, table(['unit', 'side', 'part'], ['a', 'left', 'left'], ['b', 'left', 'left'])],
    ['none of numbers', 2, table(['1', '2', '3'], ['unit', 'axle', 'side'], ['x', '1', 'left'])],
    ['whatever the first holds if no row is of words', 1, table(['1', '2'], ['3', '4'])],
  ])('is %s', (_, line, rows) => {
    expect(headerRows(rows)[0]!.line).toBe(line);
  });

  it('is not thrown off by one broken row that is very wide', () => {
    const wide = Array.from({ length: 40 }, (_, at) => `word ${at}`);
    const rows = Array.from({ length: 12 }, (_, at) => [`u${at}`, '1']);
    expect(headerRows(table(['unit', 'axle'], wide, ...rows))[0]!.line).toBe(1);
  });
});

it('a heading over two rows is taken from the upper one', () => {
  const rows = table(['Unit', 'Torque', ''], ['', 'inner', 'outer'], ['7', '300', '250']);
  expect(headersAt(rows, 2)).toEqual(['Unit', 'inner', 'outer']);
  expect(headersAt(rows, 1)).toEqual(['Unit', 'Torque', '']);
});

it('records have two columns and rows below', () => {
  expect(looksLikeRecords(table(['unit', 'date'], ['1', '2024-01-01']))).toBe(true);
  expect(looksLikeRecords(table(['unit', 'date']))).toBe(false);
  expect(looksLikeRecords(table(['Ask the office'], ['before you change anything']))).toBe(false);
});

it('headers are told apart by number, and blank ones by their place', () => {
  expect(distinctHeaders(['Date', ' date ', '', 'Date (2)', 'DATE', 'line\none'])).toEqual([
    'Date',
    'date (2)',
    '(column 3)',
    'Date (2) (2)',
    'DATE (3)',
    'line one',
  ]);
});
