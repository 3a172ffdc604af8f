import { cellUnitFacts, type CellQuantity, type CellUnit } from '../../../../shared/units.ts';
import { unitNamed } from '../number-text.ts';
import type { ColumnProfile } from './column-profile.ts';

export interface UnitFound {
  readonly unit: CellUnit;
  readonly why: string;
  /** Neither the header nor the values leave one unit only. */
  readonly undecided: boolean;
}

/** A unit in a header: in brackets, or its last words. */
export function unitInHeader(header: string, quantity: CellQuantity): CellUnit | null {
  const bracketed = [...header.matchAll(/[([]([^)\]]+)[)\]]/g)].map((match) => match[1] ?? '');
  const words = header
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .split(/[^\p{L}"]+/u)
    .filter(Boolean);
  const tries = [...bracketed, words.slice(-2).join(''), words.at(-1) ?? '', ...words];
  for (const text of tries) {
    const unit = unitNamed(text);
    if (unit !== undefined && cellUnitFacts[unit].quantity === quantity) return unit;
  }
  // `Kilometerstand`, `kilométrage`
  return quantity === 'miles' && /kilom[eé]t/i.test(header) ? 'km' : null;
}

/**
 * The unit of a column: from its header, else from what its values can be. End play of a wheel end is
 * some thousandths of an inch (limits 0.001–0.005 in, loose ones to some 0.02): 0.03–0.5 mm. Odometers
 * in miles and in kilometres look the same, torques of 50–800 may be either: these are asked for.
 */
export function unitOf({ header, texts, median, greatest }: ColumnProfile, quantity: CellQuantity): UnitFound {
  const named = unitInHeader(header, quantity);
  if (named) return { unit: named, why: `the header says ${named}`, undecided: false };
  const own = texts.map(([text]) => unitInHeader(text.replace(/^[^\p{L}"']*/u, ''), quantity)).find(Boolean);
  if (own) return { unit: own, why: `cells say ${own} themselves`, undecided: false };
  switch (quantity) {
    case 'length':
      return lengthUnit(median, greatest);
    case 'miles':
      return { unit: 'mi', why: 'miles and kilometres look the same', undecided: true };
    case 'torque':
      return { unit: 'lbf·ft', why: `a torque of ${median} may be in lbf·ft or N·m`, undecided: !Number.isNaN(median) };
    case 'hours':
      return { unit: 'h', why: 'no unit is said', undecided: false };
  }
}

function lengthUnit(median: number, greatest: number): UnitFound {
  if (Number.isNaN(median)) return { unit: 'in', why: 'there are no values to tell by', undecided: false };
  if (median >= 1)
    return { unit: 'thousandths', why: `values such as ${median} can only be thousandths`, undecided: false };
  if (greatest <= 0.03 && median <= 0.012)
    return { unit: 'in', why: `values up to ${greatest} can only be inches`, undecided: false };
  if (median >= 0.03)
    return { unit: 'mm', why: `values such as ${median} would be far too loose in inches`, undecided: false };
  return { unit: 'in', why: `values such as ${median} may be inches or millimetres`, undecided: true };
}
