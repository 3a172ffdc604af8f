import { count, range, type Limits } from './wording.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

const numberWords = [
  ...['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'],
  ...['eleven', 'twelve', 'thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen', 'twenty'],
];

/** `seven`, `20`: small counts are words in a sentence. */
export const inWords = (value: number): string =>
  value >= 1 && value <= 10 ? (numberWords[value - 1] as string) : count(value);

const decimals = (share: number): number => (share >= 0.095 ? 0 : share >= 0.0095 ? 1 : 2);

/** `25 %`, `9.8 %`, `0.62 %`; digits follow the share itself unless `like` sets them. */
export function percent(share: number, like = share): string {
  if (share === 0) return `0${percentSign}`;
  if (share > 0 && share * 100 < 0.01) return `under 0.01${percentSign}`;
  // A share short of the whole is never rounded up to all of it.
  if (share < 1 && share >= 0.995) return `over 99${percentSign}`;
  return `${(share * 100).toFixed(decimals(like))}${percentSign}`;
}

/** `(19 to 32 %)`, both ends with the digits of the share they belong to. */
export function percentRange(limits: Limits, like: number): string {
  const digits = decimals(like);
  return range(limits, (share) => (share * 100).toFixed(digits)).replace(/\)$/, `${percentSign})`);
}

/** `one seal in ten` (`one in ten`) where the share is within 7 % of 1 in n, n up to 20; null where no such words fit. */
export function oneIn(share: number, thing = ''): string | null {
  if (!(share > 0.04 && share < 0.6)) return null;
  const n = Math.round(1 / share);
  if (n < 2 || n > 20 || Math.abs(share * n - 1) > 0.07) return null;
  return `one ${thing ? `${thing} ` : ''}in ${numberWords[n - 1]}`;
}

/** `38 of 100`, `1.2 of 100`: whole things where they can be. */
export function ofHundred(share: number): string {
  if (share > 0 && share < 0.0005) return 'under 0.1 of 100';
  return `${(share * 100).toFixed(share > 0 && share < 0.0095 ? 1 : 0)} of 100`;
}

/** `(34 to 42)`, the limits of a share of a hundred. */
export const range100 = (limits: Limits): string => range(limits, (share) => (share * 100).toFixed(0));

/** Starts a sentence; marks of emphasis before the first letter are passed over. */
export const sentenceCase = (text: string): string =>
  text.replace(/^(\**)(.)/, (_, marks: string, letter: string) => marks + letter.toUpperCase());

/** `a, b and c`. */
export function listed(items: readonly string[], joint = 'and'): string {
  if (items.length < 2) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} ${joint} ${items[items.length - 1]}`;
}
