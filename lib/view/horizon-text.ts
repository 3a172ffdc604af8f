import { kilometresPerMile } from '../../shared/units.ts';

const pattern = /^(\d+(?:\.\d+)?(?:e[+-]?\d+)?)(km)?$/;

/**
 * A horizon as a link carries it: miles, or `150000km` where that is the rounder way to say it.
 * The kilometre form is used only if it leads back to exactly the same miles.
 */
export function horizonToText(miles: number): string {
  const kilometres = Math.round(miles * kilometresPerMile);
  const exact = kilometres / kilometresPerMile === miles;
  return exact && !Number.isInteger(miles) ? `${kilometres}km` : String(miles);
}

/** Miles from a horizon's text; NaN where it is no number. */
export function textToHorizon(text: string): number {
  const [, digits, kilometres] = pattern.exec(text) ?? [];
  if (digits === undefined) return Number.NaN;
  return kilometres === undefined ? Number(digits) : Number(digits) / kilometresPerMile;
}
