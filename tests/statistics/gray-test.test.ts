import { describe, expect, it } from 'vitest';
import { grayTest, logRank, StatisticsError, type SurvivalData } from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

describe('grayTest against R cmprsk 2.2-11 cuminc', () => {
  it('cr-mgus2-sex', () => {
    const { expected, source } = loadCase('cr-mgus2-sex');
    const data = loadData('mgus2');
    const lives = { exit: numbers(data, 'etime'), event: numbers(data, 'event'), group: data['sex'] as string[] };
    for (const want of expected.gray_test) {
      const got = grayTest(lives, { cause: Number(want.cause) });
      const about = { method: 'grayTest', source: `cr-mgus2-sex: ${source}` };
      check(about, got.statistic as number, want.stat, 1e-7);
      check(about, got.pValue as number, want.p, 1e-7);
      expect(got.degreesOfFreedom).toBe(want.df);
    }
  });
});

const veteran = loadData('veteran');
const lives: SurvivalData = {
  exit: numbers(veteran, 'time'),
  event: numbers(veteran, 'status'),
  group: veteran['celltype'] as string[],
};

describe('grayTest where it must agree with something else', () => {
  it('has the scores of the log-rank test when nothing competes, strata and late entry included', () => {
    const entry = numbers(veteran, 'time').map((time, row) => (row % 4 === 0 ? time / 3 : 0));
    for (const data of [lives, { ...lives, strata: numbers(veteran, 'trt') }, { ...lives, entry }]) {
      const [gray, mantel] = [grayTest(data), logRank(data)];
      gray.expected.forEach((value, group) => {
        expect(gray.observed[group]).toBe(mantel.observed[group]);
        expect(value).toBeCloseTo(mantel.expected[group]!, 9);
      });
      expect(gray.degreesOfFreedom).toBe(3);
    }
  });

  it('has the size it claims for three groups whose competing cause differs, late entry included', () => {
    // mulberry32, a published 32-bit generator: the fleets are the same every run.
    let state = 7;
    const uniform = (): number => {
      state = (state + 0x6d2b79f5) >>> 0;
      let t = Math.imul(state ^ (state >>> 15), state | 1);
      t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
      return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
    };
    const fleets = 600;
    let rejected = 0;
    for (let fleet = 0; fleet < fleets; fleet++) {
      const rows = Array.from({ length: 150 }, (_, row) => {
        const cause = uniform() < 0.4 ? 1 : 2;
        const life = -Math.log(1 - uniform()) * (cause === 1 ? 1 : 0.5 + (row % 3) / 2);
        const end = 0.3 + 3 * uniform();
        const entry = uniform() < 0.25 ? 0.5 * uniform() : 0;
        return { exit: Math.min(life, end), event: life <= end ? cause : 0, entry, group: row % 3 };
      }).filter(({ exit, entry }) => exit > entry);
      const column = (name: 'exit' | 'event' | 'entry' | 'group') => Float64Array.from(rows, (row) => row[name]);
      const data = { exit: column('exit'), event: column('event'), entry: column('entry'), group: column('group') };
      if ((grayTest(data).pValue as number) < 0.05) rejected++;
    }
    // 5 % of 600 is 30; three standard errors of that count are 16.
    expect(rejected).toBeGreaterThan(30 - 16);
    expect(rejected).toBeLessThan(30 + 16);
  });

  it('does not depend on the order of the groups or on the time unit', () => {
    const event = numbers(veteran, 'status').map((status, row) => (status === 0 ? 0 : row % 3 === 0 ? 2 : 1));
    const data = { ...lives, event };
    const turned = {
      ...data,
      group: (veteran['celltype'] as string[]).map((type) => `${type === 'large' ? 'a' : 'b'}${type}`),
    };
    const reversed = Object.fromEntries(
      Object.entries(turned).map(([name, column]) => [name, Array.from(column as ArrayLike<string>).reverse()]),
    ) as unknown as SurvivalData;
    for (const rho of [0, 1, -0.5]) {
      const want = grayTest(data, { rho }).statistic as number;
      expect(grayTest(reversed, { rho }).statistic).toBeCloseTo(want, 9);
      const scaled = { ...data, exit: numbers(veteran, 'time').map((time) => time * 1e6) };
      expect(grayTest(scaled, { rho }).statistic).toBeCloseTo(want, 9);
    }
  });

  it('takes whole weights as repeats', () => {
    const data = { exit: [1, 2, 3, 4, 5, 6], event: [1, 2, 1, 0, 1, 2], group: ['a', 'b', 'a', 'b', 'b', 'a'] };
    const weight = [2, 1, 3, 1, 2, 0];
    const rows = weight.flatMap((times, row) => Array.from({ length: times }, () => row));
    const repeated = {
      exit: rows.map((row) => data.exit[row]!),
      event: rows.map((row) => data.event[row]!),
      group: rows.map((row) => data.group[row]!),
    };
    expect(grayTest({ ...data, weight }).statistic).toBeCloseTo(grayTest(repeated).statistic!, 10);
  });

  it('adds the scores and variances of strata', () => {
    const one = grayTest({ ...lives, strata: numbers(veteran, 'time').map(() => 1) });
    const twice = grayTest({
      exit: [...(lives.exit as Float64Array), ...(lives.exit as Float64Array)],
      event: [...(lives.event as Float64Array), ...(lives.event as Float64Array)],
      group: [...(lives.group as string[]), ...(lives.group as string[])],
      strata: Array.from({ length: 2 * lives.exit.length }, (_, row) => (row < lives.exit.length ? 1 : 2)),
    });
    expect(twice.statistic).toBeCloseTo(2 * one.statistic!, 9);
  });
});

describe('grayTest by hand', () => {
  it('works two lives a group: one failure of the cause each, one competing', () => {
    // Group a: cause 1 at 1, cause 2 at 3; group b: cause 2 at 2, cause 1 at 4.
    const got = grayTest({ exit: [1, 3, 2, 4], event: [1, 2, 2, 1], group: ['a', 'a', 'b', 'b'] });
    // At 1: n/S = 2, 2 and F = 0: half is due to each. At 4: only b is left, S = 1/2, so all of it is b's.
    expect([...got.observed]).toEqual([1, 1]);
    expect(got.expected[0]).toBeCloseTo(1 / 2, 14);
    expect(got.expected[1]).toBeCloseTo(3 / 2, 14);
  });

  it.each<[string, SurvivalData, string]>([
    ['no rows', { exit: [], event: [], group: [] }, 'no events of the cause'],
    ['no events of the cause', { exit: [1, 2], event: [2, 0], group: ['a', 'b'] }, 'no events of the cause'],
    [
      'one group',
      { exit: [1, 2], event: [1, 2], group: ['a', 'a'] },
      'no event of the cause while more than one group was at risk',
    ],
  ])('%s: a null statistic with the reason', (_, data, reason) => {
    expect(grayTest(data)).toMatchObject({ statistic: null, pValue: null, degreesOfFreedom: 0, reason });
  });

  it.each<[string, () => unknown]>([
    ['group', () => grayTest({ exit: [1], event: [1] })],
    ['cause', () => grayTest({ exit: [1], event: [1], group: ['a'] }, { cause: 0 })],
    ['rho', () => grayTest({ exit: [1], event: [1], group: ['a'] }, { rho: NaN })],
    ['weight', () => grayTest({ exit: [1], event: [1], group: ['a'], weight: [0.5] })],
  ])('refuses a bad %s', (argument, call) => {
    expect(call).toThrow(StatisticsError);
    expect(call).toThrow(argument);
  });
});

describe('the robust Gray test', () => {
  // Whole months: ties within and between causes, censorings tied with events, a lone censoring, late entry.
  const data = {
    entry: [0, 0, 0, 2, 0, 3, 0, 0, 1, 0, 0, 4, 0, 0, 2, 0, 0, 5],
    exit: [1, 2, 2, 5, 3, 6, 4, 7, 3, 2, 8, 9, 3, 5, 6, 1, 9, 8],
    event: [1, 2, 0, 1, 1, 2, 0, 1, 1, 1, 0, 2, 2, 1, 1, 2, 1, 0],
    group: [...'abcabcabcabcabcabc'],
    cluster: [0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8],
  };
  const rows = [...data.exit.keys()];
  const names = ['a', 'b', 'c'];

  /** Σ over clusters of squared pulls, every integral a sum over event times counted from the rows. */
  function written(): number[] {
    const times = [...new Set(rows.filter((row) => data.event[row]! > 0).map((row) => data.exit[row]!))].sort(
      (a, b) => a - b,
    );
    const count = (test: (row: number) => boolean) => rows.filter(test).length;
    const survival = names.map(() => 1);
    const pulls = rows.map(() => names.map(() => 0));
    const c = names.map(() => names.map(() => 0));
    let pooled = 0;
    const later: (() => void)[] = [];
    for (const time of times) {
      const atRisk = (row: number) => data.entry[row]! < time && data.exit[row]! >= time;
      const n = names.map((name) => count((row) => data.group[row] === name && atRisk(row)));
      const d = (cause: number) =>
        names.map((name) =>
          count((row) => data.group[row] === name && data.exit[row] === time && data.event[row] === cause),
        );
      const [own, other] = [d(1), d(2)];
      const share = n.map((lives, k) => (survival[k]! > 0 ? lives / survival[k]! : 0));
      const pool = share.reduce((sum, one) => sum + one, 0);
      const failures = own.reduce((sum, one) => sum + one, 0);
      const left = 1 - pooled - failures / pool;
      const a = names.map((_, i) => names.map((_name, k) => share[i]! * ((i === k ? 1 : 0) - share[k]! / pool)));
      names.forEach((_, i) =>
        names.forEach((_name, k) => (c[i]![k]! += (a[i]![k]! * failures) / (pool * (1 - pooled)))),
      );
      const [before, now] = [survival.slice(), c.map((row) => row.slice())];
      later.push(() => {
        for (const row of rows.filter(atRisk)) {
          const k = names.indexOf(data.group[row]!);
          if (share[k] === 0) continue;
          const after = (before[k]! * (n[k]! - own[k]! - other[k]!)) / n[k]!;
          const failed = (cause: number) => (data.exit[row] === time && data.event[row] === cause ? 1 : 0);
          const dOwn = failed(1) - failures / (pool * before[k]!);
          const dOther = failed(2) - other[k]! / n[k]!;
          names.forEach((_, i) => {
            const rest = c[i]![k]! - now[i]![k]!;
            const [h1, h2] = after > 0 ? [1 - left / after, -left / after] : [1, 0];
            pulls[row]![i]! += (before[k]! / n[k]!) * ((a[i]![k]! + h1 * rest) * dOwn + h2 * rest * dOther);
          });
        }
      });
      names.forEach((_, k) => (survival[k]! *= n[k]! > 0 ? (n[k]! - own[k]! - other[k]!) / n[k]! : 1));
      pooled = 1 - left;
    }
    for (const add of later) add();
    return names.flatMap((_, i) =>
      names.map((_name, j) => {
        const sum = (cluster: number, score: number) =>
          rows.filter((row) => data.cluster[row] === cluster).reduce((total, row) => total + pulls[row]![score]!, 0);
        return [...new Set(data.cluster)].reduce((total, cluster) => total + sum(cluster, i) * sum(cluster, j), 0);
      }),
    );
  }

  it('has the variance of the pulls written out row by row, by 9/8 for nine clusters', () => {
    const { robust } = grayTest(data);
    const want = written();
    robust?.variance.forEach((value, cell) => expect(value).toBeCloseTo((9 / 8) * (want[cell] as number), 12));
    expect(robust).toMatchObject({ clusters: 9, degreesOfFreedom: 2 });
  });

  it('does not depend on row order; whole weights are repeats; a copy of all in another stratum and other clusters doubles it', () => {
    const { robust } = grayTest(data);
    const pick = (places: readonly number[]) => ({
      entry: places.map((row) => data.entry[row]!),
      exit: places.map((row) => data.exit[row]!),
      event: places.map((row) => data.event[row]!),
      group: places.map((row) => data.group[row]!),
      cluster: places.map((row) => data.cluster[row]!),
    });
    expect(grayTest(pick([...rows].reverse())).robust?.statistic).toBeCloseTo(robust?.statistic as number, 10);
    const weight = rows.map((row) => 1 + (row % 3));
    const repeats = rows.flatMap((row) => Array.from({ length: weight[row] as number }, () => row));
    expect(grayTest({ ...data, weight }).robust?.statistic).toBeCloseTo(
      grayTest(pick(repeats)).robust?.statistic as number,
      10,
    );
    const twice = pick([...rows, ...rows]);
    const strata = [...rows.map(() => 1), ...rows.map(() => 2)];
    const apart = grayTest({
      ...twice,
      strata,
      cluster: twice.cluster.map((code, row) => code + 9 * (strata[row]! - 1)),
    });
    expect(apart.robust?.statistic).toBeCloseTo(2 * (robust?.statistic as number), 10);
  });

  it('is left undecided by too few clusters', () => {
    const { robust } = grayTest({ ...data, cluster: rows.map((row) => row % 2) });
    expect(robust).toMatchObject({ statistic: null, pValue: null, reason: '2 clusters are too few for a robust test' });
  });
});
