/** Exact conversions (NIST SP 811, appendix B): inside, miles, lbf·ft and inches; these serve the edges only. */
export const kilometresPerMile = 1.609344;
export const newtonMetresPerFtLb = 1.3558179483314004;
export const millimetresPerInch = 25.4;

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
