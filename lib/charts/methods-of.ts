import type { Finding } from '../../shared/finding.ts';
import { percentSign } from '../../shared/percent-sign.ts';
import { estimateOrder } from './estimate-words.ts';

/** Each estimate with the methods its groups were given by, and what its limits are. */
export function methodsOf({ groups }: Finding): { name: string; method: string }[] {
  const names = estimateOrder([...new Set(groups.flatMap(({ estimates }) => Object.keys(estimates)))]);
  return names.flatMap((name) => {
    const told = groups.flatMap(({ estimates }) => {
      const estimate = estimates[name];
      if (estimate === undefined) return [];
      const vehicle = estimate.vehicleLower === undefined ? '' : ' and by vehicle, the wider';
      return [`${estimate.method}; ${Number((estimate.level * 100).toPrecision(4))}${percentSign} limits${vehicle}`];
    });
    return [...new Set(told)].map((method) => ({ name, method }));
  });
}
