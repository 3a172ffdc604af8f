import type { Series } from '../../../shared/finding.ts';
import type { ObservedExpected } from '../../statistics/index.ts';
import { standardizedRatio } from '../../statistics/index.ts';
import type { ShopsEvidence } from './shops-evidence.ts';

/** A quarter with fewer failures expected says next to nothing yet. */
export const immatureExpected = 1;

/** Observed and expected failures of jobs done in one quarter by one group. */
export interface Quarter {
  readonly group: number;
  /** 4 × year + (0 to 3). */
  readonly quarter: number;
  readonly lives: number;
  readonly observed: number;
  readonly expected: number;
}

/** By group, then in the order of time; lives without a day of installation are in none. */
export function quartersOf({ groups, installDay, event }: ShopsEvidence, { rowExpected }: ObservedExpected): Quarter[] {
  const sums = new Map<number, { lives: number; observed: number; expected: number }>();
  installDay.forEach((day, at) => {
    if (Number.isNaN(day)) return;
    const date = new Date(day * 86_400_000);
    const quarter = 4 * date.getUTCFullYear() + Math.floor(date.getUTCMonth() / 3);
    const key = (groups.codes[at] as number) * 1e6 + quarter;
    const sum = sums.get(key) ?? { lives: 0, observed: 0, expected: 0 };
    sum.lives++;
    sum.observed += event[at] as number;
    sum.expected += rowExpected[at] as number;
    sums.set(key, sum);
  });
  return [...sums]
    .sort(([a], [b]) => a - b)
    .map(([key, sum]) => ({ group: Math.floor(key / 1e6), quarter: key % 1e6, ...sum }));
}

/** The trend of every group by quarter of installation, exact limits that take the expected as known. */
export function quarterSeries(quarters: readonly Quarter[], labels: readonly string[], level: number): Series[] {
  return labels.flatMap((group, place) => {
    const own = quarters.filter((one) => one.group === place);
    if (own.length === 0) return [];
    const ratios = own.map(({ observed, expected }) => standardizedRatio({ observed, expected }, { level }));
    return [
      {
        name: 'install quarter',
        group,
        columns: {
          year: own.map(({ quarter }) => Math.floor(quarter / 4)),
          quarter: own.map(({ quarter }) => (quarter % 4) + 1),
          lives: own.map(({ lives }) => lives),
          observed: own.map(({ observed }) => observed),
          expected: own.map(({ expected }) => expected),
          ratio: ratios.map(({ value }) => value),
          lower: ratios.map(({ lower }) => lower),
          upper: ratios.map(({ upper }) => upper),
        },
      },
    ];
  });
}
