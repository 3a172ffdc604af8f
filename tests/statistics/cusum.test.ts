import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cusum, StatisticsError } from '../../lib/statistics/index.ts';
import { createRandom } from '../../lib/statistics/numeric/random.ts';

describe('cusum by hand', () => {
  it('counts, a doubling: each step adds O·log 2 − E and never goes below zero', () => {
    const got = cusum({ observed: [0, 2, 1, 3], expected: [1, 1, 1, 1] }, { ratio: 2, limit: 1.5 });
    const log2 = Math.LN2;
    expect([...got.observedMinusExpected]).toEqual([-1, 0, 0, 2]);
    const wanted = [0, 2 * log2 - 1, 3 * log2 - 2, 6 * log2 - 3];
    got.score.forEach((score, step) => expect(score).toBeCloseTo(wanted[step] as number, 14));
    // 6 log 2 − 3 = 1.159 is below 1.5, above 1.1.
    expect(got).toMatchObject({ signalAt: null, falseSignalShare: null });
    expect(cusum({ observed: [0, 2, 1, 3], expected: [1, 1, 1, 1] }, { ratio: 2, limit: 1.1 }).signalAt).toBe(3);
  });

  it('counts, a halving: quiet steps climb by E/2, an event falls by log 2', () => {
    const got = cusum({ observed: [0, 0, 1], expected: [1, 2, 0.5] }, { ratio: 0.5, limit: 1.4 });
    [0.5, 1.5, 1.75 - Math.LN2].forEach((score, step) => expect(got.score[step]).toBeCloseTo(score, 14));
    expect(got.signalAt).toBe(1);
  });

  it('Steiner’s weights: odds doubled at a risk of 0.1 add log(2/1.1) for a failure and log(1/1.1) for none', () => {
    const got = cusum({ observed: [1, 0], expected: [0.1, 0.1] }, { ratio: 2, model: 'binary', limit: 4.5 });
    expect(got.score[0]).toBeCloseTo(Math.log(2 / 1.1), 14);
    expect(got.score[1]).toBeCloseTo(Math.log(2 / 1.1) - Math.log(1.1), 14);
  });

  it('event by event, one expected, a halving: only a period with no event at all reaches the top score of 1/2', () => {
    // P(no event) = e^(−1) = 0.368: a share of 0.3 can only be kept by a limit that even those do not pass.
    const plan = { ratio: 0.5, plannedExpected: 1, simulations: 20_000 };
    const strict = cusum({ observed: [], expected: [] }, { ...plan, falseSignalShare: 0.3 });
    expect(strict.limit).toBeCloseTo(0.5, 12);
    expect(strict.falseSignalShare).toBe(0);
    expect(cusum({ observed: [], expected: [] }, { ...plan, falseSignalShare: 0.4 }).limit).toBeLessThan(0.5);
  });

  it('one step of one expected, a doubling: the limit is the score of two events, which 8 % of steps pass', () => {
    // P(O ≥ 3) = 1 − 2.5/e = 0.0803, P(O ≥ 4) = 0.0190; so a share of 0.1 is kept by 2 log 2 − 1.
    const got = cusum({ observed: [0], expected: [1] }, { ratio: 2, falseSignalShare: 0.1, simulations: 20_000 });
    expect(got.limit).toBeCloseTo(2 * Math.LN2 - 1, 12);
    expect(Math.abs((got.falseSignalShare as number) - (1 - 2.5 / Math.E))).toBeLessThan(0.006);
  });
});

const months = new Array<number>(60).fill(80 / 60);

/** Share of periods of 60 steps whose score passes the limit, at a true ratio and clumps of `clump` events. */
function signalShare(limit: number, ratio: number, truth: number, clump = 1): number {
  const random = createRandom(99);
  const expected = Float64Array.from(months);
  let signals = 0;
  for (let period = 0; period < 1500; period++) {
    const observed = expected.map((mean) => clump * random.poisson((truth * mean) / clump));
    if (cusum({ observed, expected }, { ratio, limit }).signalAt !== null) signals++;
  }
  return signals / 1500;
}

describe('cusum under simulation', () => {
  // 1,500 periods: an honest 5 % shows 3.3 to 6.7 % nearly always (three standard errors).
  it.each([0.5, 2])('ratio %f: 5 % of quiet periods signal, nearly all changed ones do', (ratio) => {
    const { limit } = cusum({ observed: [], expected: [] }, { ratio, plannedExpected: months });
    const falseShare = signalShare(limit, ratio, 1);
    expect(falseShare).toBeLessThan(0.067);
    expect(falseShare).toBeGreaterThan(0.033);
    expect(signalShare(limit, ratio, ratio)).toBeGreaterThan(0.9);
  });

  it('failures in threes break a limit made for single ones; the limit made for their dispersion holds', () => {
    const plan = { ratio: 2, plannedExpected: months };
    const single = cusum({ observed: [], expected: [] }, plan).limit;
    const clustered = cusum({ observed: [], expected: [] }, { ...plan, dispersion: 3 }).limit;
    expect(signalShare(single, 2, 1, 3)).toBeGreaterThan(0.15);
    expect(signalShare(clustered, 2, 1, 3)).toBeLessThan(0.067);
  });

  it('a reference known to 20 % asks for a higher limit', () => {
    const plan = { ratio: 2, plannedExpected: months };
    const sure = cusum({ observed: [], expected: [] }, plan).limit;
    expect(cusum({ observed: [], expected: [] }, { ...plan, expectedErrorLog: 0.2 }).limit).toBeGreaterThan(1.2 * sure);
  });

  it('binary: subjects of unlike risk keep to the false signal share', () => {
    const random = createRandom(5);
    const expected = Float64Array.from({ length: 400 }, () => 0.02 + 0.3 * random.uniform() ** 2);
    const options = { ratio: 2, model: 'binary' as const };
    const { limit } = cusum({ observed: new Float64Array(400), expected }, options);
    let signals = 0;
    for (let period = 0; period < 1500; period++) {
      const observed = expected.map((risk) => (random.uniform() < risk ? 1 : 0));
      if (cusum({ observed, expected }, { ...options, limit }).signalAt !== null) signals++;
    }
    expect(signals / 1500).toBeLessThan(0.067);
    expect(signals / 1500).toBeGreaterThan(0.03);
  });
});

describe('cusum laws', () => {
  it('the same seed gives the same limit; a longer period or a smaller share a higher one', () => {
    const limit = (plannedExpected: number, falseSignalShare: number) =>
      cusum({ observed: [], expected: [] }, { ratio: 2, plannedExpected, falseSignalShare }).limit;
    expect(limit(50, 0.05)).toBe(limit(50, 0.05));
    expect(limit(200, 0.05)).toBeGreaterThan(limit(50, 0.05));
    expect(limit(50, 0.01)).toBeGreaterThan(limit(50, 0.05));
  });

  it('looking at every event needs the higher limit', () => {
    const limit = (plannedExpected: number | number[]) =>
      cusum({ observed: [], expected: [] }, { ratio: 0.5, plannedExpected }).limit;
    expect(limit(80)).toBeGreaterThan(limit(months));
  });

  it('the running difference is the sum of observed less the sum of expected; the score is never negative', () => {
    const steps = fc.array(
      fc.record({ o: fc.integer({ min: 0, max: 5 }), e: fc.double({ min: 0.1, max: 5, noNaN: true }) }),
    );
    fc.assert(
      fc.property(steps, fc.constantFrom(0.4, 0.8, 1.5, 3), (rows, ratio) => {
        const got = cusum(
          { observed: rows.map((row) => row.o), expected: rows.map((row) => row.e) },
          { ratio, limit: 5 },
        );
        const total = rows.reduce((sum, { o, e }) => sum + o - e, 0);
        if (rows.length > 0) expect(got.observedMinusExpected.at(-1)).toBeCloseTo(total, 10);
        expect(got.score.every((score) => score >= 0)).toBe(true);
      }),
    );
  });
});

describe('cusum on degenerate input', () => {
  it.each([
    ['ratio', { observed: [1], expected: [1] }, { ratio: 1 }],
    ['observed[0]', { observed: [0.5], expected: [1] }, { ratio: 2 }],
    ['observed[1]', { observed: [0, 2], expected: [0.1, 0.1] }, { ratio: 2, model: 'binary' as const }],
    ['expected[0]', { observed: [1], expected: [0] }, { ratio: 2 }],
    ['expected', { observed: [1, 1], expected: [1] }, { ratio: 2 }],
    ['plannedExpected', { observed: [], expected: [] }, { ratio: 2 }],
    ['falseSignalShare', { observed: [1], expected: [1] }, { ratio: 2, falseSignalShare: 0 }],
    ['simulations', { observed: [1], expected: [1] }, { ratio: 2, simulations: 3 }],
    ['limit', { observed: [1], expected: [1] }, { ratio: 2, limit: 0 }],
    ['dispersion', { observed: [1], expected: [1] }, { ratio: 2, dispersion: 0.5 }],
  ])('%s at fault: %o %o', (argument, data, options) => {
    expect(() => cusum(data, options)).toThrow(StatisticsError);
    expect(() => cusum(data, options)).toThrow(argument);
  });
});
