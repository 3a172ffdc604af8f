import { valueSays } from '../../../lib/charts/index.ts';
import type { Finding, Series } from '../../../shared/finding.ts';
import type { RatioRow } from '../finding/ratio-table.tsx';

const first = ({ columns }: Series, name: string): number | null => columns[name]?.[0] ?? null;
const whole = (value: number | null): string => (value === null ? '—' : value.toLocaleString('en-US'));

/** The rows of one kind of part of a deviation looked into: its ratio within or without each. */
export const depthRows = ({ series }: Finding, name: string, column: string): RatioRow[] =>
  series
    .filter((one) => one.name === name)
    .map((one) => ({
      name: valueSays(column, one.group),
      ...{ value: first(one, 'ratio'), lower: first(one, 'lower'), upper: first(one, 'upper') },
      cells: [whole(first(one, 'failures')), whole(first(one, 'failuresWithout'))],
    }));

export interface Shadows {
  readonly ratios: readonly number[];
  /** How many lie as far from 1 as the ratio seen, or farther. */
  readonly asFar: number;
}

/** What chance alone shows: who had it, shuffled within shops; null where nothing is looked into yet. */
export function shadowsOf({ series }: Finding, seen: number | null): Shadows | null {
  const shadow = series.find(({ name }) => name === 'shadow');
  if (shadow === undefined) return null;
  const ratios = (shadow.columns['ratio'] ?? []).filter((ratio) => ratio !== null && ratio > 0) as number[];
  const far = seen === null || seen <= 0 ? Infinity : Math.abs(Math.log(seen));
  return { ratios, asFar: ratios.filter((ratio) => Math.abs(Math.log(ratio)) >= far).length };
}
