/** Exact conversions (NIST SP 811, appendix B): inside, miles, lbf·ft and inches; these serve the edges only. */
export const kilometresPerMile = 1.609344;
export const newtonMetresPerFtLb = 1.3558179483314004;
export const millimetresPerInch = 25.4;
/** A twelfth of the Julian year of 365.25 days. */
export const daysAMonth = 30.4375;
const inchesPerFoot = 12;
const metresPerFoot = 0.3048;

/** Units in which a shop may write a cell; each is exactly a fixed multiple of the one kept inside. */
export const cellUnits = [
  'mi',
  'km',
  'lbf·ft',
  'lbf·in',
  'N·m',
  'kgf·m',
  'in',
  'thousandths',
  'mm',
  'h',
  'min',
  'd',
] as const;
export type CellUnit = (typeof cellUnits)[number];

export type CellQuantity = 'miles' | 'torque' | 'length' | 'hours';

interface CellUnitFacts {
  readonly quantity: CellQuantity;
  /** Value inside = number in the cell × `times` ÷ `over`: two exact factors where one quotient would round. */
  readonly times: number;
  readonly over: number;
}

/** One pound-force is exactly 0.45359237 kilograms times standard gravity, so kgf·m → lbf·ft needs no gravity at all. */
export const cellUnitFacts: Readonly<Record<CellUnit, CellUnitFacts>> = {
  mi: { quantity: 'miles', times: 1, over: 1 },
  km: { quantity: 'miles', times: 1, over: kilometresPerMile },
  'lbf·ft': { quantity: 'torque', times: 1, over: 1 },
  'lbf·in': { quantity: 'torque', times: 1, over: inchesPerFoot },
  'N·m': { quantity: 'torque', times: 1, over: newtonMetresPerFtLb },
  'kgf·m': { quantity: 'torque', times: 1, over: 0.45359237 * metresPerFoot },
  in: { quantity: 'length', times: 1, over: 1 },
  thousandths: { quantity: 'length', times: 1, over: 1000 },
  mm: { quantity: 'length', times: 1, over: millimetresPerInch },
  h: { quantity: 'hours', times: 1, over: 1 },
  min: { quantity: 'hours', times: 1, over: 60 },
  d: { quantity: 'hours', times: 24, over: 1 },
};

/**
 * A number of a cell in the unit kept inside: miles, lbf·ft, inches or hours. Twelve digits are kept, so
 * that 0.127 mm are the 0.005 in of a limit and not a hair more.
 */
export function inside(value: number, unit: CellUnit): number {
  const { times, over } = cellUnitFacts[unit];
  return times === 1 && over === 1 ? value : Number(((value * times) / over).toPrecision(12));
}

export type UnitSystem = 'us' | 'metric';

export interface DisplayUnit {
  readonly symbol: string;
  /** Shown value = stored value × factor. */
  readonly factor: number;
}

export type Quantity = 'miles' | 'torque' | 'length' | 'perMillionMiles';

const displayUnits: Record<UnitSystem, Record<Quantity, DisplayUnit>> = {
  us: {
    miles: { symbol: 'mi', factor: 1 },
    torque: { symbol: 'lbf·ft', factor: 1 },
    length: { symbol: 'in', factor: 1 },
    perMillionMiles: { symbol: 'per million mi', factor: 1 },
  },
  metric: {
    miles: { symbol: 'km', factor: kilometresPerMile },
    torque: { symbol: 'N·m', factor: newtonMetresPerFtLb },
    length: { symbol: 'mm', factor: millimetresPerInch },
    perMillionMiles: { symbol: 'per million km', factor: 1 / kilometresPerMile },
  },
};

/** How a stored quantity (miles, lbf·ft, inches, events per million miles) is shown in a unit system. */
export const displayUnit = (quantity: Quantity, system: UnitSystem): DisplayUnit => displayUnits[system][quantity];
