import type { Finding } from '../../shared/finding.ts';

/** Numbers that differ by no more than this part of themselves are the same: other engines add in another order. */
export const checkTolerance = 1e-6;

export interface CheckedNumber {
  readonly group: string;
  readonly name: string;
  readonly said: number | string | null;
  readonly now: number | string | null;
  readonly holds: boolean;
}

type Told = ReadonlyMap<
  string,
  { readonly group: string; readonly name: string; readonly value: number | string | null }
>;

const limits = ['value', 'lower', 'upper', 'vehicleLower', 'vehicleUpper'] as const;

/** Every number of a finding by where it stands, and the words that the numbers decide. */
function toldBy(finding: Finding): Told {
  const told = new Map<string, { group: string; name: string; value: number | string | null }>();
  const put = (group: string, name: string, value: number | string | null) =>
    told.set(`${group}\n${name}`, { group, name, value });
  put('', 'answer', finding.answer);
  if (finding.further !== undefined) put('', 'further', finding.further);
  put('', 'firmness', finding.firmness);
  for (const name of ['lives', 'failures', 'miles'] as const) put('', name, finding.data[name]);
  for (const group of finding.groups) {
    for (const name of ['lives', 'failures', 'miles'] as const) put(group.label, name, group[name]);
    put(group.label, 'firmness', group.firmness);
    for (const [name, value] of Object.entries(group.counts)) put(group.label, name, value);
    for (const [name, estimate] of Object.entries(group.estimates))
      for (const limit of limits) {
        const value = estimate[limit];
        if (value !== undefined) put(group.label, limit === 'value' ? name : `${name} ${limit}`, value);
      }
  }
  return told;
}

const same = (a: number | string | null, b: number | string | null): boolean =>
  typeof a === 'number' && typeof b === 'number'
    ? Math.abs(a - b) <= checkTolerance * Math.max(Math.abs(a), Math.abs(b))
    : a === b;

/** Every number that was said beside what it is now; what came or went besides does not hold. */
export function checkedNumbers(said: Finding, now: Finding): CheckedNumber[] {
  const [before, after] = [toldBy(said), toldBy(now)];
  const gone = 'not there';
  const lines = [...before].map(([key, { group, name, value }]) => {
    const found = after.get(key);
    const is = found === undefined ? gone : found.value;
    return { group, name, said: value, now: is, holds: found !== undefined && same(value, is) };
  });
  const came = [...after].filter(([key]) => !before.has(key));
  return [
    ...lines,
    ...came.map(([, { group, name, value }]) => ({ group, name, said: gone, now: value, holds: false })),
  ];
}
