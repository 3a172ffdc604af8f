import { kilometresPerMile } from '../../../shared/units.ts';

const months = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** Days as shops write them. */
export const monthFirst = (iso: string) => `${Number(iso.slice(5, 7))}/${Number(iso.slice(8, 10))}/${iso.slice(0, 4)}`;
export const shortMonthFirst = (iso: string) => `${iso.slice(5, 7)}/${iso.slice(8, 10)}/${iso.slice(2, 4)}`;
export const pointedDay = (iso: string) => `${iso.slice(8, 10)}.${iso.slice(5, 7)}.${iso.slice(0, 4)}`;
export const namedMonth = (iso: string) =>
  `${iso.slice(8, 10)}-${months[Number(iso.slice(5, 7)) - 1] ?? ''}-${iso.slice(0, 4)}`;
export const stamped = (iso: string) => `${iso}T07:45:00Z`;
export const daysLater = (iso: string, days: number) =>
  new Date(Date.parse(iso) + days * 86_400_000).toISOString().slice(0, 10);

/** A number with its thousands parted by commas. */
export const grouped = (value: number | null) => (value === null ? null : value.toLocaleString('en-US'));
/** Fifteen digits are what a gauge's own program exports; fewer would cross a limit now and then. */
export const decimalComma = (value: number | null, factor: number) =>
  value === null ? null : String(Number((value * factor).toPrecision(14))).replace('.', ',');
/** Whole kilometres, as instruments show them. */
export const kilometres = (miles: number | null) => (miles === null ? null : Math.round(miles * kilometresPerMile));
