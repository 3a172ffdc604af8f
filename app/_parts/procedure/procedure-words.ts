import { valueSays } from '../../../lib/charts/index.ts';
import type { Limit, LimitName, ProcedurePart } from '../../../shared/procedure.ts';
import { displayUnit, type Quantity, type UnitSystem } from '../../../shared/units.ts';

export const limitSays: Readonly<Record<LimitName, string>> = {
  innerTorqueFtLb: 'inner nut torque',
  outerTorqueFtLb: 'outer nut torque',
  endPlayIn: 'end play',
};

export const limitQuantity: Readonly<Record<LimitName, Quantity>> = {
  innerTorqueFtLb: 'torque',
  outerTorqueFtLb: 'torque',
  endPlayIn: 'length',
};

/** A stored number as shown: six digits, which is finer than any wrench or indicator. */
export const shownNumber = (stored: number, quantity: Quantity, units: UnitSystem): string =>
  String(Number((stored * displayUnit(quantity, units).factor).toPrecision(6)));

/** What was typed as a stored number: null where nothing stands, NaN where it is no number. */
export function storedNumber(text: string, quantity: Quantity, units: UnitSystem): number | null {
  const plain = text.trim().replace(',', '.');
  return plain === '' ? null : Number(plain) / displayUnit(quantity, units).factor;
}

/** `250–350 lbf·ft`, `up to 0.005 in`, `not known`. */
export function windowSays(limit: Limit, name: LimitName, units: UnitSystem): string {
  if (limit === null) return 'not known';
  const quantity = limitQuantity[name];
  const { symbol } = displayUnit(quantity, units);
  const text = (value: number) => shownNumber(value, quantity, units);
  const { minimum, maximum } = limit;
  if (minimum !== null && maximum !== null) return `${text(minimum)}–${text(maximum)} ${symbol}`;
  if (minimum !== null) return `from ${text(minimum)} ${symbol}`;
  return maximum === null ? 'not known' : `up to ${text(maximum)} ${symbol}`;
}

export const stepSays = (step: string): string => step.replace(/^step_/, '').replaceAll('_', ' ');

const allRoles = 6;
export const rolesSay = (roles: ProcedurePart['roles']): string =>
  roles.length === 0 ? 'no axle' : roles.length === allRoles ? 'all axles' : `${roles.join(', ')} axles`;

/** `hubs adjusted by hand, steer axles`. */
export const partSays = ({ hubBuild, roles }: ProcedurePart): string =>
  `hubs ${valueSays('hub_build', hubBuild)}, ${rolesSay(roles)}`;
