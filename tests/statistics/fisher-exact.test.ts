import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fisherExact, StatisticsError } from '../../lib/statistics/index.ts';
import { check, loadCase } from '../reference/reference.ts';

type Table = [[number, number], [number, number]];

/**
 * p-values at 1e-8. R's fisher.test finds its odds ratio and limits with uniroot at the default tolerance, 1.22e-4 on
 * ψ where ψ < 1 and on 1/ψ where ψ > 1, so a large reference limit is good to few digits; `solves` below settles it.
 */

function checkTable(source: string, want: any) {
  const got = fisherExact(want.table_rows);
  const about = { method: 'fisherExact (p-values)', source };
  check(about, [got.pValue, got.pLess, got.pGreater], [want.p_two_sided, want.p_less, want.p_greater], 1e-8);
  const rough = { method: "fisherExact (odds ratio; the reference's root finder stops early)", source };
  const wide = fisherExact(want.table_rows, { level: 0.9 });
  const pairs: [number | null, number][] = [
    [got.value, want.odds_ratio_conditional_mle],
    [got.lower, want.ci_95[0]],
    [got.upper, want.ci_95[1]],
    [wide.lower, want.ci_90[0]],
    [wide.upper, want.ci_90[1]],
  ];
  for (const [actual, expected] of pairs)
    if (expected === Infinity) expect(actual).toBeNull();
    else check(rough, actual as number, expected, 1.3e-4 * Math.max(expected, expected > 0 ? 1 / expected : 0, 1));
  solves(want.table_rows);
}

const choose = (n: number, k: number): bigint => {
  let ways = 1n;
  for (let i = 1; i <= k; i++) ways = (ways * BigInt(n - k + i)) / BigInt(i);
  return ways;
};

/** Log of Σ C(r1,x) C(r2,c1−x) ψˣ over x from `from` to `to`, from exact whole binomials. */
function logSum([[a, b], [c, d]]: Table, psi: number, from: number, to: number): number {
  const terms: number[] = [];
  for (let x = from; x <= to; x++) {
    const ways = choose(a + b, x) * choose(c + d, a + c - x);
    const digits = ways.toString();
    terms.push(Math.log(Number(`0.${digits}`)) + digits.length * Math.LN10 + x * Math.log(psi));
  }
  const most = Math.max(...terms);
  return most + Math.log(terms.reduce((total, term) => total + Math.exp(term - most), 0));
}

/** The limits solve P(X ≥ a) = 0.025 and P(X ≤ a) = 0.025, to 1e-10, with exact binomial coefficients. */
function solves(table: Table): void {
  const [[a, b], [c, d]] = table;
  const [lowest, highest] = [Math.max(0, a - d), Math.min(a + b, a + c)];
  const { lower, upper } = fisherExact(table);
  const share = (psi: number, from: number, to: number) =>
    Math.exp(logSum(table, psi, from, to) - logSum(table, psi, lowest, highest));
  if (a > lowest) expect(share(lower as number, a, highest)).toBeCloseTo(0.025, 10);
  if (a < highest) expect(share(upper as number, lowest, a)).toBeCloseTo(0.025, 10);
}

describe('fisherExact against published cases', () => {
  it('fisher-tea', () => {
    const { expected, source } = loadCase('fisher-tea');
    checkTable(source, expected);
  });
  it.each(['zero', 'big'])('fisher-zero: %s', (part) =>
    checkTable('arithmetic (R fisher.test)', loadCase('fisher-zero').expected[part]),
  );
  it('Newcombe (1998) contrasts and Berkeley admissions', () => {
    const newcombe = loadCase('prop-newcombe-a-d');
    for (const contrast of newcombe.expected) checkTable(newcombe.source, contrast.fisher);
    const ucb = loadCase('prop-ucb');
    checkTable(ucb.source, ucb.expected.fisher);
  });
});

describe('fisherExact by hand', () => {
  it('the tea tasting: 17/70, 34/70 and the root of the score equation', () => {
    const got = fisherExact([[3, 1], [1, 3]]); // prettier-ignore
    expect(got.pGreater).toBeCloseTo(17 / 70, 14);
    expect(got.pValue).toBeCloseTo(34 / 70, 14);
    expect(got.sampleOddsRatio).toBe(9);
    // E[X] = 3: Σ (x − 3) C(4,x)² ψˣ = −3 − 32ψ − 36ψ² + ψ⁴ = 0.
    const psi = got.value as number;
    expect((-3 - 32 * psi - 36 * psi ** 2 + psi ** 4) / psi ** 4).toBeCloseTo(0, 12);
  });

  it('two by two with one in each diagonal cell: ψ solves 2ψ/(1+2ψ... ) in closed form', () => {
    // Margins 1,1: X is 0 or 1 with weights 1 and ψ. P(X ≥ 1) = ψ/(1+ψ) = 0.025, ψ = 1/39; the top is unbounded.
    const got = fisherExact([[1, 0], [0, 1]]); // prettier-ignore
    expect(got.lower).toBeCloseTo(1 / 39, 13);
    expect(got).toMatchObject({ value: null, upper: null, sampleOddsRatio: null });
    expect(got.pValue).toBeCloseTo(1, 14);
  });
});

describe('fisherExact laws', () => {
  const cell = fc.integer({ min: 0, max: 40 });

  it('exchanging rows turns the odds ratio over; transposing changes nothing', () => {
    fc.assert(
      fc.property(cell, cell, cell, cell, (a, b, c, d) => {
        const one = fisherExact([[a, b], [c, d]]); // prettier-ignore
        const turned = fisherExact([[c, d], [a, b]]); // prettier-ignore
        const across = fisherExact([[a, c], [b, d]]); // prettier-ignore
        expect(turned.pValue).toBeCloseTo(one.pValue, 10);
        expect(across.pValue).toBeCloseTo(one.pValue, 10);
        if (one.lower !== null && one.lower > 0) expect(one.lower * (turned.upper as number)).toBeCloseTo(1, 9);
        if (across.value !== null)
          expect(across.value / ((one.value as number) || 1)).toBeCloseTo(one.value ? 1 : 0, 9);
      }),
    );
  });
});

describe('fisherExact on degenerate input', () => {
  it('an empty margin tells nothing', () => {
    const got = fisherExact([[0, 0], [3, 4]]); // prettier-ignore
    expect(got).toMatchObject({
      value: null,
      lower: 0,
      upper: null,
      pValue: 1,
      reason: expect.stringContaining('margin'),
    });
  });
  it.each([[-1], [0.5], [NaN]])('cell %f is refused', (cell) => {
    expect(() => fisherExact([[1, cell], [3, 4]])).toThrow(StatisticsError); // prettier-ignore
    expect(() => fisherExact([[1, cell], [3, 4]])).toThrow('table[1]'); // prettier-ignore
  });
});
