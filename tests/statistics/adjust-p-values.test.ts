import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { adjustPValues, StatisticsError } from '../../lib/statistics/index.ts';
import { check, loadCase } from '../reference/reference.ts';

function checkCase(source: string, want: { p: number[]; bh: number[]; holm: number[] }) {
  check({ method: 'adjustPValues (Benjamini–Hochberg)', source }, adjustPValues(want.p) as number[], want.bh, 1e-12);
  check(
    { method: 'adjustPValues (Holm)', source },
    adjustPValues(want.p, { method: 'holm' }) as number[],
    want.holm,
    1e-12,
  );
}

describe('adjustPValues against published cases', () => {
  it('Benjamini & Hochberg (1995): rejects four at 0.05, as the paper says', () => {
    const { expected, source } = loadCase('padj-bh1995');
    checkCase(source, expected);
    expect(adjustPValues(expected.p).filter((p) => (p as number) <= 0.05)).toHaveLength(4);
  });
  it('unsorted with ties', () => checkCase('arithmetic (R p.adjust)', loadCase('padj-unsorted-ties').expected));
  it.each(['ties', 'single'])('edge: %s', (part) =>
    checkCase('arithmetic (R p.adjust)', loadCase('padj-edge').expected[part]),
  );
});

describe('adjustPValues by hand', () => {
  it('three values: 3·0.01, 3/2·0.02, 0.5 and 3·0.01, 2·0.02, 0.5', () => {
    check(
      { method: 'adjustPValues (Benjamini–Hochberg)', source: 'by hand' },
      adjustPValues([0.02, 0.5, 0.01]) as number[],
      [0.03, 0.5, 0.03],
      1e-12,
    );
    check(
      { method: 'adjustPValues (Holm)', source: 'by hand' },
      adjustPValues([0.02, 0.5, 0.01], { method: 'holm' }) as number[],
      [0.04, 0.5, 0.03],
      1e-12,
    );
  });

  it('comparisons not made stay null and are not counted', () => {
    expect(adjustPValues([0.02, null, 0.5, NaN, 0.01])).toEqual([0.03, null, 0.5, null, 0.03]);
    expect(adjustPValues([])).toEqual([]);
    expect(adjustPValues([null])).toEqual([null]);
  });
});

describe('adjustPValues laws', () => {
  const values = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 40 });
  it('never below the raw value, never above 1, same order, Holm never below Benjamini–Hochberg', () => {
    fc.assert(
      fc.property(values, (raw) => {
        const bh = adjustPValues(raw) as number[];
        const holm = adjustPValues(raw, { method: 'holm' }) as number[];
        raw.forEach((p, row) => {
          expect(bh[row]).toBeGreaterThanOrEqual(p);
          expect(holm[row]).toBeGreaterThanOrEqual((bh[row] as number) * (1 - 1e-12));
          expect(holm[row]).toBeLessThanOrEqual(1);
          raw.forEach((q, other) => p < q && expect(bh[row]).toBeLessThanOrEqual(bh[other] as number));
        });
      }),
    );
  });
});

describe('adjustPValues on degenerate input', () => {
  it.each([[-0.1], [1.1], [Infinity]])('%f is refused with its row', (p) => {
    expect(() => adjustPValues([0.5, p])).toThrow(StatisticsError);
    expect(() => adjustPValues([0.5, p])).toThrow('pValues[1]');
  });
});
