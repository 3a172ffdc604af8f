import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eventRate, standardizedRatio, StatisticsError } from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

interface Case {
  readonly observed: number;
  readonly expected: number;
  readonly ratio: number;
  readonly chisq: number;
  readonly ci: Record<string, { exact_chisq: [number, number] }>;
}

function checkCase(source: string, want: Case, data: Parameters<typeof standardizedRatio>[0] = want) {
  const about = { method: 'standardizedRatio', source };
  for (const [name, { exact_chisq }] of Object.entries(want.ci)) {
    const got = standardizedRatio(data, { level: Number(name.replace('level_', '')) / 100 });
    check(
      about,
      [got.value, got.lower, got.upper, got.statistic] as number[],
      [want.ratio, ...exact_chisq, want.chisq],
      1e-9,
    );
  }
}

describe('standardizedRatio against published cases', () => {
  it('smr-small', () => {
    for (const part of loadCase('smr-small').expected) checkCase('arithmetic (R qchisq)', part);
  });

  it('smr-nickel, from the rows of the data set', () => {
    const { expected, source } = loadCase('smr-nickel');
    const data = loadData('nickel_strata');
    const predicted = numbers(data, 'person_years').map(
      (years, row) => (years * (numbers(data, 'rate_per_million')[row] as number)) / 1e6,
    );
    const exposed = numbers(data, 'exposed');
    for (const [name, keep] of [
      ['unexposed', (code: number) => code === 0],
      ['exposed', (code: number) => code === 1],
      ['all', () => true],
    ] as const) {
      const rows = (column: Float64Array) => column.filter((_, row) => keep(exposed[row] as number));
      checkCase(source, expected[name], { observed: rows(numbers(data, 'lung')), expected: rows(predicted) });
    }
  });
});

describe('standardizedRatio by hand', () => {
  it('none seen where two are expected: p = 2e⁻², upper limit −ln 0.025 / 2', () => {
    const got = standardizedRatio({ observed: 0, expected: 2 });
    expect(got).toMatchObject({ value: 0, lower: 0, statistic: 2 });
    expect(got.pValue).toBeCloseTo(2 * Math.exp(-2), 14);
    expect(got.upper).toBeCloseTo(-Math.log(0.025) / 2, 12);
  });

  it('one seen where e is tiny: p = 2(1 − e⁻ᵉ) keeps its digits', () => {
    expect((standardizedRatio({ observed: 1, expected: 1e-9 }).pValue as number) / 2e-9).toBeCloseTo(1, 8);
  });
});

describe('standardizedRatio laws', () => {
  const counts = fc.record({
    observed: fc.integer({ min: 0, max: 300 }),
    expected: fc.double({ min: 0.01, max: 300, noNaN: true }),
  });

  it('p is below α just when the limits leave out 1', () => {
    fc.assert(
      fc.property(counts, (data) => {
        const { pValue, lower, upper } = standardizedRatio(data);
        expect((pValue as number) < 0.05).toBe((lower as number) > 1 || (upper as number) < 1);
      }),
    );
  });

  it('is the event rate whose exposure is the expectation, robust limits too', () => {
    const data = { observed: [1, 0, 2, 1], expected: [0.5, 0.7, 0.9, 0.4] };
    const cluster = ['a', 'b', 'b', 'c'];
    const { rate, robust } = eventRate({ events: data.observed, exposure: data.expected, cluster });
    expect(standardizedRatio({ ...data, cluster })).toMatchObject({ ...rate, robust: robust?.rate });
  });
});

describe('standardizedRatio on degenerate input', () => {
  it('nothing expected says so', () => {
    expect(standardizedRatio({ observed: 0, expected: 0 })).toMatchObject({
      value: null,
      pValue: null,
      reason: 'no events expected',
    });
  });

  it.each([
    ['observed', { observed: 0.5, expected: 1 }],
    ['expected', { observed: 1, expected: 0 }],
    ['expected', { observed: [1, 2], expected: [1, -1] }],
    ['expected[1]', { observed: [1, 2], expected: [1, NaN] }],
  ])('%s at fault: %o', (argument, data) => {
    expect(() => standardizedRatio(data)).toThrow(StatisticsError);
    expect(() => standardizedRatio(data)).toThrow(argument);
  });
});
