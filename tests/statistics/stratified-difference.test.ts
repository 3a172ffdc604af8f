import { describe, expect, test } from 'vitest';
import { stratifiedDifference } from '../../lib/statistics/index.ts';
import { loadData, numbers } from '../reference/reference.ts';

// R 4.2 on the data set colon of its survival package: f <- lm(status ~ obstruct + factor(rx)); V = B U'U B with
// B = solve(crossprod(X)), U = X * resid(f), summed by id for clusters.
describe('death or recurrence with and without obstruction, by treatment', () => {
  const data = loadData('colon');
  const columns = {
    event: numbers(data, 'status'),
    group: numbers(data, 'obstruct'),
    strata: data['rx'] as string[],
  };

  test('difference, shares and error are those of least squares (1e-10)', () => {
    const { value, shares, standardError, strata } = stratifiedDifference(columns);
    expect(value).toBeCloseTo(0.05978760709655, 12);
    expect(shares?.[0]).toBeCloseTo(0.4861581648035, 12);
    expect(shares?.[1]).toBeCloseTo(0.5459457719001, 12);
    expect(standardError).toBeCloseTo(0.02885676788649 * Math.sqrt(1858 / 1857), 12);
    expect(strata).toBe(3);
  });

  test('clusters: both records of one person move as one', () => {
    const { standardError, lower, upper } = stratifiedDifference({ ...columns, cluster: numbers(data, 'id') });
    const error = 0.03854354204161 * Math.sqrt(929 / 928);
    expect(standardError).toBeCloseTo(error, 12);
    expect(lower).toBeCloseTo(0.05978760709655 - 1.959963984540054 * error, 12);
    expect(upper).toBeCloseTo(0.05978760709655 + 1.959963984540054 * error, 12);
  });
});

test('by hand: a stratum asked about more often in one group makes no difference', () => {
  // In both strata the shares are alike (1 in 2 and none), but group 1 answers the first ten times as often.
  const rows = (count: number, event: number, group: number, strata: number) =>
    Array.from({ length: count }, () => ({ event, group, strata }));
  const all = [
    ...[...rows(20, 1, 1, 0), ...rows(20, 0, 1, 0), ...rows(2, 1, 0, 0), ...rows(2, 0, 0, 0)],
    ...[...rows(4, 0, 1, 1), ...rows(40, 0, 0, 1)],
  ];
  const found = stratifiedDifference({
    event: all.map(({ event }) => event),
    group: all.map(({ group }) => group),
    strata: all.map(({ strata }) => strata),
  });
  expect(found.value).toBeCloseTo(0, 12);
  expect(found.shares?.[0]).toBeCloseTo(found.shares?.[1] as number, 12);
});

test('what cannot be told is null, with the reason', () => {
  const apart = { event: [1, 0], group: [1, 0], strata: ['a', 'b'] };
  expect(stratifiedDifference(apart)).toMatchObject({ value: null, reason: 'no stratum has rows of both groups' });
  const alone = { event: [1, 0, 1], group: [1, 0, 0], strata: [0, 0, 0], cluster: [7, 7, 7] };
  expect(stratifiedDifference(alone)).toMatchObject({ value: 0.5, standardError: null, lower: null, upper: null });
});

test('bad input is named with its row', () => {
  const good = { event: [1, 0], group: [1, 0], strata: [0, 0] };
  expect(() => stratifiedDifference({ ...good, event: [1, 2] })).toThrow('event[1]: is 2, not 0 or 1');
  expect(() => stratifiedDifference({ ...good, group: [1] })).toThrow('group: has 1 rows where 2 are wanted');
});
