import type { Series } from '../../../shared/finding.ts';
import type { ObservedExpected } from '../../statistics/index.ts';
import { firmnessRule } from '../firmness.ts';

/** Expected failures at which the limits of the funnel are given: from 1, each a quarter more. */
function ladder(most: number): number[] {
  const steps = [1];
  while ((steps.at(-1) as number) < most) steps.push((steps.at(-1) as number) * 1.25);
  return steps;
}

/** Normal quantiles of 95 and 99.8 %. */
const quantiles = { '95': 1.959964, '998': 3.090232 } as const;

/**
 * Limits of a ratio that is 1: the root of a count has about a variance of a quarter whatever its
 * mean (Bartlett 1936), here by the design effect more.
 */
function limitsAt(expected: number, design: number, z: number): readonly [number, number] {
  const half = (z / 2) * Math.sqrt(design / expected);
  return [Math.max(0, 1 - half) ** 2, (1 + half) ** 2];
}

/**
 * The funnel: where the ratio of a group no different from all would lie by what is expected of it,
 * vehicles and the error of the expected allowed for by the design effect.
 */
export function funnelSeries(compared: ObservedExpected, labels: readonly string[], design: number): Series[] {
  const most = compared.expected.reduce((largest, value) => Math.max(largest, value), 1);
  const expected = ladder(most);
  const limits = (z: number) => expected.map((value) => limitsAt(value, design, z));
  const [inner, outer] = [limits(quantiles['95']), limits(quantiles['998'])];
  const at = (all: readonly (readonly [number, number])[], side: 0 | 1) => all.map((pair) => pair[side]);
  return [
    {
      name: 'funnel limits',
      group: 'all',
      columns: {
        expected,
        ...{ lower95: at(inner, 0), upper95: at(inner, 1), lower998: at(outer, 0), upper998: at(outer, 1) },
      },
    },
    ...labels.map((group, place) => ({
      name: 'funnel',
      group,
      columns: { expected: [compared.expected[place] as number], ratio: [compared.ratio[place] ?? null] },
    })),
  ];
}

/**
 * Mean square of the groups' standardised differences: about 1 where chance (with vehicles and the
 * error of the expected) explains how far they lie apart, more where they differ beyond it. Null
 * with fewer than two groups of failures enough.
 */
export function spreadOf(
  { observed, ratio, standardErrorLog }: ObservedExpected,
  places: readonly number[],
): number | null {
  const squares = places.flatMap((group) => {
    const [own, error] = [ratio[group], standardErrorLog[group]];
    return own && error && (observed[group] as number) >= firmnessRule.thinFailures
      ? [(Math.log(own) / error) ** 2]
      : [];
  });
  return squares.length < 2 ? null : squares.reduce((sum, one) => sum + one, 0) / (squares.length - 1);
}
