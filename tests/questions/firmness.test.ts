import { describe, expect, test } from 'vitest';
import { firmnessOfOne, pWords, verdictOnComparison, verdictOnOne } from '../../lib/questions/firmness.ts';
import type { Doubt } from '../../shared/finding.ts';

// Every number here is one of the documented rule: 30, 15, 5 failures, 1.5 wide, p < 0.05, 0.8 to 1.25.
const doubt = (state: Doubt['state']): Doubt => ({ name: 'a', state, detail: 'b', settledBy: 'c' });
const narrow = { lower: 100, upper: 150 };
const wide = { lower: 100, upper: 151 };

describe('one group', () => {
  test.each([
    [4, narrow, 'too few'],
    [5, narrow, 'thin'],
    [14, narrow, 'thin'],
    [15, narrow, 'fair'],
    [29, narrow, 'fair'],
    [30, narrow, 'firm'],
    [30, wide, 'fair'],
    [3000, { lower: 0, upper: 1 }, 'fair'],
    [3000, { lower: null, upper: 1 }, 'fair'],
  ] as const)('%i failures within %o are %s', (failures, limits, word) => {
    expect(firmnessOfOne(failures, limits)).toBe(word);
    expect(verdictOnOne({ failures, limits, event: 'leak' }, [doubt('holds'), doubt('cannot-tell')]).firmness).toBe(
      word,
    );
  });

  test('a failing doubt keeps it from firm, and is counted in the reason', () => {
    const one = verdictOnOne({ failures: 40, limits: narrow, event: 'leak' }, [doubt('fails')]);
    expect(one).toEqual({ firmness: 'fair', reason: '40 leaks; one doubt stands' });
    expect(verdictOnOne({ failures: 1, limits: narrow, event: 'leak' }, [doubt('fails'), doubt('fails')]).reason).toBe(
      '1 leak; two doubts stand',
    );
  });
});

describe('a comparison', () => {
  const compared = { event: 'leak', pValue: 0.001, ratio: { lower: 1.5, upper: 3 } };
  test.each([
    [[30, 30], {}, 'firm'],
    [[29, 3000], {}, 'fair'],
    [[15, 3000], {}, 'fair'],
    [[14, 3000], {}, 'thin'],
    [[5, 5], {}, 'thin'],
    [[4, 3000], {}, 'too few'],
    [[300, 300], { pValue: 0.05 }, 'fair'],
    [[300, 300], { pValue: null }, 'fair'],
    [[300, 300], { pValue: 0.6, ratio: { lower: 0.8, upper: 1.25 } }, 'firm'],
    [[300, 300], { pValue: 0.6, ratio: { lower: 0.79, upper: 1.1 } }, 'fair'],
    [[300, 300], { pValue: 0.6, ratio: null }, 'fair'],
  ] as const)('of %j with %j is %s', (failures, change, word) => {
    expect(verdictOnComparison({ ...compared, failures, ...change }, []).firmness).toBe(word);
  });

  test('fewer than two groups with enough is too few', () => {
    expect(verdictOnComparison({ ...compared, failures: [] }, [])).toEqual({
      firmness: 'too few',
      reason: 'fewer than two groups with 5 leaks or more',
    });
  });

  test('the reason says what stands behind it', () => {
    const reason = (change: object, doubts: Doubt[] = []) =>
      verdictOnComparison({ ...compared, failures: [41, 212], ...change }, doubts).reason;
    expect(reason({}, [doubt('fails')])).toBe('41 and 212 leaks; one doubt stands');
    expect(reason({ pValue: 0.4, ratio: null })).toBe(
      '41 and 212 leaks; the difference may be chance; no doubt stands',
    );
    expect(reason({ pValue: 0.4, ratio: { lower: 0.9, upper: 1.1 } })).toContain('no difference worth the name');
    expect(reason({ failures: [7, 1200, 30] })).toBe('7 to 1,200 leaks in three groups; no doubt stands');
  });
});

test('p-values in words', () => {
  expect([0.0004, 0.034, 0.2, 0.9999].map(pWords)).toEqual([
    'p\u00a0<\u00a00.001',
    'p\u00a0=\u00a00.034',
    'p\u00a0=\u00a00.2',
    'p\u00a0>\u00a00.99',
  ]);
});
