import { dateOrders, type DateOrder } from '../../../../shared/column-map.ts';
import { positionTokens } from '../../positions/position-tokens.ts';
import { wordOf } from '../cell-words.ts';
import { readDate } from '../date-text.ts';
import { readNumber } from '../number-text.ts';
import { blankDays, blankWords } from './trade-words.ts';

/** What the sample says of one column of a file. */
export interface ColumnProfile {
  readonly header: string;
  readonly place: number;
  /** Rows of the sample, and how many of them have something in this column. */
  readonly rows: number;
  readonly filled: number;
  /** Different texts, as they stand, commonest first, each with its rows. */
  readonly texts: readonly (readonly [text: string, rows: number])[];
  /** Texts by which cells say that they are not known. */
  readonly blanks: readonly string[];
  /** Shares of the filled cells that can be read so. */
  readonly dates: number;
  readonly serials: number;
  readonly numbers: number;
  /** Share of the different texts that say something of a place on a vehicle, and nothing else. */
  readonly places: number;
  /** Whether every filled cell is different, but for rows that are there twice; and so are the pairs with the cells of another column. */
  readonly unique: boolean;
  pairsWith(other: { readonly place: number }): boolean;
  /** Median, least and greatest of the numbers that are not zero; NaN where there are none. */
  readonly median: number;
  readonly least: number;
  readonly greatest: number;
}

const blankCells = new Set([...blankWords, ...blankDays].map(wordOf));
export const isBlankWord = (text: string): boolean => text === '' || blankCells.has(wordOf(text));

/** How many different texts are looked at one by one. */
const mostTexts = 400;

export function profileOf(
  header: string,
  place: number,
  rows: readonly (readonly string[])[],
  decimal: 'point' | 'comma',
): ColumnProfile {
  const counted = new Map<string, number>();
  const blanks = new Set<string>();
  let filled = 0;
  for (const row of rows) {
    const text = (row[place] ?? '').trim();
    if (isBlankWord(text)) {
      if (text !== '') blanks.add(wordOf(text));
      continue;
    }
    filled++;
    counted.set(text, (counted.get(text) ?? 0) + 1);
  }
  const texts = [...counted].sort((a, b) => b[1] - a[1]);
  const looked = texts.slice(0, mostTexts);
  const share = (holds: (text: string) => boolean) => shareOf(looked, holds);
  const numbers = looked.map(([text]) => numberOf(text, decimal)).filter((value) => value !== null && value !== 0);
  const sorted = (numbers as number[]).sort((a, b) => a - b);
  return {
    header,
    place,
    rows: rows.length,
    filled,
    texts,
    blanks: [...blanks],
    dates: share((text) => dateOrdersOf(text).length > 0),
    serials: share((text) => /^[2-6]\d{4}(\.\d+)?$/.test(text)),
    numbers: share((text) => numberOf(text, decimal) !== null),
    places: looked.length === 0 ? 0 : looked.filter(([text]) => saysPlace(text)).length / looked.length,
    unique: filled > 1 && counted.size > leastDifferent * filled && repeatsAreRows(rows, place, counted),
    pairsWith: (other) => differentIn(rows, [place, other.place]) === differentIn(rows),
    median: sorted[sorted.length >> 1] ?? NaN,
    least: sorted[0] ?? NaN,
    greatest: sorted.at(-1) ?? NaN,
  };
}

/** How many rows are different, as a whole or in some of their cells. */
const differentIn = (rows: readonly (readonly string[])[], places?: readonly number[]): number =>
  new Set(rows.map((row) => (places?.map((place) => row[place] ?? '') ?? row).join('\u001f'))).size;

/** Exports overlap, and orders are opened again; but a number that most rows share with another is none of theirs. */
const leastDifferent = 0.8;

/** Whether rows that share a text are one row again, if need be at another date. */
function repeatsAreRows(
  rows: readonly (readonly string[])[],
  place: number,
  counted: ReadonlyMap<string, number>,
): boolean {
  const firsts = new Map<string, readonly string[]>();
  for (const row of rows) {
    const text = (row[place] ?? '').trim();
    if ((counted.get(text) ?? 0) < 2) continue;
    const first = firsts.get(text);
    if (!first) firsts.set(text, row);
    else if (row.some((cell, at) => cell !== first[at] && dateOrdersOf(cell.trim()).length === 0)) return false;
  }
  return true;
}

function shareOf(texts: readonly (readonly [string, number])[], holds: (text: string) => boolean): number {
  let all = 0;
  let held = 0;
  for (const [text, rows] of texts) {
    all += rows;
    if (holds(text)) held += rows;
  }
  return all === 0 ? 0 : held / all;
}

/** A number in any unit of any quantity, or null. */
function numberOf(text: string, decimal: 'point' | 'comma'): number | null {
  for (const quantity of ['miles', 'torque', 'length', 'hours'] as const) {
    const value = readNumber(text, { decimal, quantity, unit: undefined });
    if (typeof value === 'number') return value;
  }
  return null;
}

/** Orders of day, month and year in which a text is a day; all of them where it says its order itself. */
export const dateOrdersOf = (text: string): DateOrder[] =>
  /^\d{1,6}([.,]\d+)?$/.test(text) ? [] : dateOrders.filter((order) => typeof readDate(text, { order }) !== 'string');

function saysPlace(text: string): boolean {
  const tokens = positionTokens(text, false);
  const words = tokens.filter((token) => token.kind === 'word' && token.readings.some(({ says }) => says.length > 0));
  return tokens.length > 0 && tokens.length <= 6 && words.length > 0 && tokens.every(({ kind }) => kind !== 'unknown');
}

/** The decimal mark of a file: by numbers that have one and cannot be anything else. Null where none says it. */
export function decimalOf(rows: readonly (readonly string[])[]): 'point' | 'comma' | null {
  let point = 0;
  let comma = 0;
  for (const row of rows.slice(0, 500))
    for (const cell of row) {
      const text = cell.trim();
      if (/^[+-]?\d*\.\d{1,2}$|^[+-]?0?\.\d+$|^[+-]?\d+\.\d{4,}$|^\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)) point++;
      if (/^[+-]?\d*,\d{1,2}$|^[+-]?0?,\d+$|^[+-]?\d+,\d{4,}$|^\d{1,3}(\.\d{3})+,\d+$/.test(text)) comma++;
    }
  if (point === comma) return null;
  return point > comma ? 'point' : 'comma';
}
