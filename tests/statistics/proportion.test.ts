import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { proportion, proportionDifference, StatisticsError, type Interval } from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const limits = ({ lower, upper }: Interval) => [lower, upper] as number[];

function checkPair(source: string, want: any) {
  for (const [name, level] of [
    ['level_90', 0.9],
    ['level_95', 0.95],
  ] as const) {
    const expected = want.levels[name];
    for (const side of [1, 2]) {
      const counts = { events: want[`x${side}`], total: want[`n${side}`] };
      const about = { method: 'proportion', source };
      check(about, proportion(counts).value as number, want[`p${side}`], 1e-8);
      check(about, limits(proportion(counts, { level })), expected[`wilson${side}`], 1e-8);
      check(
        about,
        limits(proportion(counts, { level, method: 'clopper-pearson' })),
        expected[`clopper_pearson${side}`],
        1e-8,
      );
    }
    const got = proportionDifference({ events: [want.x1, want.x2], total: [want.n1, want.n2] }, { level });
    const about = { method: 'proportionDifference', source };
    check(about, [got.value as number, ...limits(got)], [want.difference, ...expected.newcombe_method10], 1e-8);
    check(about, got.statistic as number, want.pearson_chisq_no_correction, 1e-8);
  }
}

describe('proportions against published cases', () => {
  it('Newcombe (1998) table II, contrasts a to d', () => {
    const { expected, source } = loadCase('prop-newcombe-a-d');
    for (const contrast of expected) checkPair(source, contrast);
  });

  it('prop-ucb', () => {
    const { expected, source } = loadCase('prop-ucb');
    checkPair(source, expected);
  });

  it('prop-toxocara', () => {
    const { expected, source } = loadCase('prop-toxocara');
    const found = numbers(loadData('toxocara'), 'number');
    const counts = { events: found.filter((number) => number > 0).length, total: found.length };
    expect(counts).toEqual({ events: expected.x, total: expected.n });
    const about = { method: 'proportion', source };
    check(about, limits(proportion(counts)), expected.wilson, 1e-8);
    check(about, limits(proportion(counts, { method: 'clopper-pearson' })), expected.clopper_pearson, 1e-8);
  });
});

describe('proportions by hand', () => {
  it('none of three: exact upper 1 − ∛0.025; Wilson upper z²/(n + z²)', () => {
    const exact = proportion({ events: 0, total: 3 }, { method: 'clopper-pearson' });
    expect(exact.lower).toBe(0);
    expect(exact.upper).toBeCloseTo(1 - Math.cbrt(0.025), 12);
    const z2 = 1.959963984540054 ** 2;
    expect(proportion({ events: 0, total: 3 })).toMatchObject({ value: 0, lower: 0 });
    expect(proportion({ events: 0, total: 3 }).upper).toBeCloseTo(z2 / (3 + z2), 12);
  });

  it('all of three mirrors none of three', () => {
    expect(proportion({ events: 3, total: 3 })).toMatchObject({ value: 1, upper: 1 });
    expect(proportion({ events: 3, total: 3 }, { method: 'clopper-pearson' }).lower).toBeCloseTo(Math.cbrt(0.025), 12);
  });

  it('chi-square of 3/4 against 1/4 is 2: difference ½, pooled variance ½·½·½', () => {
    const got = proportionDifference({ events: [3, 1], total: [4, 4] });
    expect(got.statistic).toBeCloseTo(2, 13);
    expect(got.pValue).toBeCloseTo(0.15729920705028513, 12); // erfc(1)
  });
});

describe('proportion laws', () => {
  const counts = fc
    .tuple(fc.integer({ min: 1, max: 5000 }), fc.double({ min: 0, max: 1, noNaN: true }))
    .map(([total, share]) => ({ events: Math.round(total * share), total }));

  it('limits hold the value, stay in [0, 1], mirror, and the exact ones are the wider on the far side', () => {
    fc.assert(
      fc.property(counts, fc.constantFrom('wilson', 'clopper-pearson'), ({ events, total }, method) => {
        const got = proportion({ events, total }, { method });
        const mirror = proportion({ events: total - events, total }, { method });
        expect(got.lower).toBeGreaterThanOrEqual(0);
        expect(got.upper).toBeLessThanOrEqual(1);
        expect(got.lower).toBeLessThanOrEqual(got.value as number);
        expect(got.upper).toBeGreaterThanOrEqual(got.value as number);
        expect((mirror.lower as number) + (got.upper as number)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('a difference changes its sign with the order', () => {
    fc.assert(
      fc.property(counts, counts, (one, two) => {
        const there = proportionDifference({ events: [one.events, two.events], total: [one.total, two.total] });
        const back = proportionDifference({ events: [two.events, one.events], total: [two.total, one.total] });
        expect(there.lower).toBeCloseTo(-(back.upper as number), 12);
        expect(there.lower).toBeGreaterThanOrEqual(-1 - 1e-12);
        expect(there.pValue ?? 1).toBeCloseTo(back.pValue ?? 1, 12);
      }),
    );
  });
});

describe('proportions on degenerate input', () => {
  it('nothing counted, or no variation, says so', () => {
    expect(proportion({ events: 0, total: 0 })).toMatchObject({
      value: null,
      lower: 0,
      upper: 1,
      reason: 'none counted',
    });
    const empty = proportionDifference({ events: [0, 1], total: [0, 2] });
    expect(empty).toMatchObject({ value: null, lower: -1, upper: 1, pValue: null, reason: 'none counted' });
    expect(proportionDifference({ events: [0, 0], total: [3, 4] })).toMatchObject({
      value: 0,
      pValue: null,
      statistic: null,
    });
  });

  it.each([
    ['events', { events: 4, total: 3 }],
    ['events', { events: 0.5, total: 3 }],
    ['events', { events: NaN, total: 3 }],
    ['total', { events: 0, total: -3 }],
  ])('%s at fault: %o', (argument, data) => {
    expect(() => proportion(data)).toThrow(StatisticsError);
    expect(() => proportion(data)).toThrow(argument);
  });

  it('names the row of a difference', () => {
    expect(() => proportionDifference({ events: [1, 4], total: [3, 3] })).toThrow('events[1]');
    expect(() => proportionDifference({ events: [1], total: [3, 3] })).toThrow('two are wanted');
  });
});
