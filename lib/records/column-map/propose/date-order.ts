import { dateOrders, type DateOrder } from '../../../../shared/column-map.ts';
import { dateOrdersOf, type ColumnProfile } from './column-profile.ts';

export interface OrderFound {
  /** Null where dates say their order themselves, or nothing tells it. */
  readonly order: DateOrder | null;
  /** A date that can be read in two orders, where no date of the file tells which. */
  readonly undecided: string | null;
}

/** Some dates of a file may be slips; beyond this share they speak against an order. */
const mostSlips = 0.02;

/**
 * The order of day and month of a file, by dates that can be read in one order only. Decided once for
 * the file, never row by row.
 */
export function dateOrderOf(profiles: readonly ColumnProfile[]): OrderFound {
  const texts = profiles.flatMap(({ texts }) => texts.slice(0, 2_000).map(([text]) => text));
  const open = texts.filter((text) => tellsNothing.test(text));
  if (open.length === 0) return { order: null, undecided: null };
  const reads = (order: DateOrder) => open.filter((text) => dateOrdersOf(text).includes(order)).length;
  const possible = dateOrders.filter((order) => reads(order) >= open.length * (1 - mostSlips) && reads(order) > 0);
  const left = possible.filter((order) => order !== 'ymd' || yearComesFirst(open));
  const [only] = left;
  if (only && left.length === 1) return { order: only, undecided: null };
  // Where no order serves nearly all of them, the one that serves most of them by far.
  const [best, next] = [...dateOrders].filter((order) => order !== 'ymd').sort((a, b) => reads(b) - reads(a));
  if (left.length === 0 && best && next && reads(best) > 2 * reads(next)) return { order: best, undecided: null };
  return { order: null, undecided: open.find(isEither) ?? open[0] ?? null };
}

/** Three numbers, none of them a year of four digits in front, or eight digits that are no year, month and day. */
const tellsNothing = /^\d{1,2}[-/. ]{1,2}\d{1,2}[-/. ]{1,2}(\d{4}|\d{2})\b/;

/** Day and month might each be the other. */
function isEither(text: string): boolean {
  const [first, second] = text.split(/\D+/);
  const orders = dateOrdersOf(text);
  return first !== second && orders.includes('dmy') && orders.includes('mdy');
}

/** In dates of three short numbers the years are few and the days many. */
function yearComesFirst(texts: readonly string[]): boolean {
  const parts = texts.map((text) => text.split(/\D+/));
  if (parts.some(([, , third = '']) => third.length === 4)) return false;
  const different = (at: number) => new Set(parts.map((part) => Number(part[at]))).size;
  return different(0) < different(2);
}
