import type { Estimate, Finding } from '../../shared/finding.ts';
import { percentSign } from '../../shared/percent-sign.ts';
import { estimateOrder } from './estimate-words.ts';

/** One way of coming by numbers: which estimates it gave, and what their limits are. */
export interface MethodTold {
  readonly method: string;
  readonly names: readonly string[];
  readonly limits: string;
}

const shown = (level: number): string => String(Number((level * 100).toPrecision(4)));

function limitsOf(estimates: readonly Estimate[]): string {
  const levels = [...new Set(estimates.map(({ level }) => level))].sort((a, b) => a - b);
  const [least = 0, most = least] = [levels[0], levels.at(-1)];
  const said = least === most ? shown(least) : `${shown(least)} to ${shown(most)}`;
  const byVehicle = estimates.filter(({ vehicleLower }) => vehicleLower !== undefined).length;
  const wider =
    byVehicle === 0 ? '' : ` and by vehicle${byVehicle < estimates.length ? ' where it can be' : ''}, the wider`;
  return `${said}${percentSign} limits${wider}`;
}

/** Each method once, in the order of the estimates it gave. */
export function methodsOf({ groups }: Finding): MethodTold[] {
  const names = estimateOrder([...new Set(groups.flatMap(({ estimates }) => Object.keys(estimates)))]);
  const by = new Map<string, { names: string[]; estimates: Estimate[] }>();
  for (const name of names)
    for (const { estimates } of groups) {
      const estimate = estimates[name];
      if (estimate === undefined) continue;
      const told = by.get(estimate.method) ?? { names: [], estimates: [] };
      by.set(estimate.method, told);
      if (!told.names.includes(name)) told.names.push(name);
      told.estimates.push(estimate);
    }
  return [...by].map(([method, told]) => ({ method, names: told.names, limits: limitsOf(told.estimates) }));
}
