import type { ColumnMap, DateOrder } from '../../../shared/column-map.ts';
import { dayIn, firstYear, lastYear } from '../date-cell.ts';
import { monthNamed } from './month-names.ts';

export type DateSettings = ColumnMap['dates'];

/** A year of two digits lies in these hundred years. */
const firstOfTwoDigits = firstYear;

const clock = String.raw`(?:[T ,]+\d{1,2}[:h.]\d{2}(?:[:.]\d{2}(?:[.,]\d+)?)?(?: ?[ap]\.?m\.?)?(?: ?(?:Z|UTC|GMT|[+-]\d{2}(?::?\d{2})?))?)?`;
const gap = String.raw`[-/. ]{1,2}`;
const yearFirst = new RegExp(String.raw`^(\d{4})${gap}(\d{1,2})${gap}(\d{1,2})\.?${clock}$`, 'i');
const threeNumbers = new RegExp(String.raw`^(\d{1,2})${gap}(\d{1,2})${gap}(\d{4}|\d{2})\.?${clock}$`, 'i');
const compact = /^(\d{8})(?:[T ]?\d{4}(?:\d{2})?Z?)?$/;
const weekday = String.raw`(?:\p{L}{2,10}[,.]? +)?`;
const word = String.raw`(\p{L}{3,12})`;
const dayMonth = new RegExp(
  String.raw`^${weekday}(\d{1,2})(?:st|nd|rd|th|\.)?[-/. ]*(?:de +)?${word}[-/., ]*(?:de +)?'?(\d{4}|\d{2})${clock}$`,
  'iu',
);
const monthDay = new RegExp(
  String.raw`^${weekday}${word}[-/. ]*(\d{1,2})(?:st|nd|rd|th)?[-/., ]+'?(\d{4}|\d{2})${clock}$`,
  'iu',
);
const yearMonth = new RegExp(String.raw`^(\d{4})[-/. ]*${word}[-/. ]*(\d{1,2})${clock}$`, 'iu');
const serial = /^\d{5}(?:[.,]\d+)?$/;

/** A day, or why the text is none that can be told. */
export type DateReading = { readonly day: string } | string;

const noDay = 'no day of the calendar';
const orders: Readonly<Record<DateOrder, string>> = {
  ymd: 'year, month, day',
  dmy: 'day, month, year',
  mdy: 'month, day, year',
};

/** Reads a date as people and programs write it into an ISO day; what stands behind it as time of day is cut off. */
export function readDate(text: string, { order, serials }: DateSettings): DateReading {
  const ymd = yearFirst.exec(text);
  if (ymd) return dayOf(ymd[1]!, Number(ymd[2]), ymd[3]!);
  const named = namedMonth(text);
  if (named) return named;
  const run = compact.exec(text)?.[1];
  if (run !== undefined) return ofRun(run, order);
  if (serial.test(text) && serials !== undefined) return ofSerial(Number.parseInt(text, 10), serials);
  const parts = threeNumbers.exec(text);
  if (parts) return inOrder(parts[1]!, parts[2]!, parts[3]!, order);
  return 'not a date as this source writes them';
}

function namedMonth(text: string): DateReading | null {
  const found =
    threeOf(dayMonth.exec(text), 3, 2, 1) ??
    threeOf(monthDay.exec(text), 3, 1, 2) ??
    threeOf(yearMonth.exec(text), 1, 2, 3);
  return found && !Number.isNaN(monthNamed(found[1])) ? dayOf(found[0], monthNamed(found[1]), found[2]) : null;
}

const threeOf = (
  match: RegExpExecArray | null,
  year: number,
  month: number,
  day: number,
): [string, string, string] | null => match && [match[year]!, match[month]!, match[day]!];

/** Eight digits begin with a year, unless only the order said makes a day of them. */
function ofRun(run: string, order: DateOrder | undefined): DateReading {
  const asYear = dayOf(run.slice(0, 4), Number(run.slice(4, 6)), run.slice(6));
  if (typeof asYear !== 'string' || order === undefined || order === 'ymd') return asYear;
  return inOrder(run.slice(0, 2), run.slice(2, 4), run.slice(4), order);
}

function inOrder(first: string, second: string, third: string, order: DateOrder | undefined): DateReading {
  if (order === undefined) return 'a date whose order of day and month the column map does not say';
  const [year, month, day] =
    order === 'dmy' ? [third, second, first] : order === 'mdy' ? [third, first, second] : [first, second, third];
  const read = dayOf(year, Number(month), day);
  return read === noDay ? `${noDay}, read as ${orders[order]}` : read;
}

/** Days from 1900 count a 29 February 1900 that never was, so that day 1 is two days after 1899-12-30 from March on. */
function ofSerial(days: number, serials: '1900' | '1904'): DateReading {
  const from = serials === '1900' ? Date.UTC(1899, 11, 30) : Date.UTC(1904, 0, 1);
  return checked(new Date(from + days * 86_400_000).toISOString().slice(0, 10));
}

function dayOf(year: string, month: number, day: string): DateReading {
  const whole = year.length === 4 ? Number(year) : inHundred(Number(year));
  return checked(`${String(whole).padStart(4, '0')}-${String(month).padStart(2, '0')}-${day.padStart(2, '0')}`);
}

const inHundred = (year: number): number => firstOfTwoDigits + ((year - (firstOfTwoDigits % 100) + 100) % 100);

function checked(day: string): DateReading {
  const year = Number(day.slice(0, 4));
  if (year < firstYear || year > lastYear) return 'a year outside those that records can mean';
  return Number.isNaN(dayIn(new TextEncoder().encode(day), 0, day.length)) ? noDay : { day };
}
