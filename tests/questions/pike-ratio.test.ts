import { expect, test } from 'vitest';
import { pikeRatio, vehicleInflation } from '../../lib/questions/pike-ratio.ts';
import { logRank, rateRatio } from '../../lib/statistics/index.ts';
import { loadCase, loadData, numbers } from '../reference/reference.ts';

const aml = loadData('aml');
const group = aml['x'] as string[];
const test2 = logRank({ exit: numbers(aml, 'time'), event: numbers(aml, 'status'), group });

test('acute leukaemia: (O₁/E₁)/(O₀/E₀) from the observed and expected of reference case rank-aml', () => {
  const { observed, expected } = loadCase('rank-aml').expected.logrank as { observed: number[]; expected: number[] };
  const [o0, o1, e0, e1] = [observed[0], observed[1], expected[0], expected[1]] as [number, number, number, number];
  expect(pikeRatio(test2, 0.95).value).toBeCloseTo(o1 / e1 / (o0 / e0), 9);
  // By hand: (11/7.3107)/(7/10.6893).
  expect(pikeRatio(test2, 0.95).value).toBeCloseTo(2.2977, 4);
});

test('limits are those of two Poisson counts, and inflation by four doubles them on the log scale', () => {
  const plain = pikeRatio(test2, 0.95);
  const exact = rateRatio({ events: [11, 7], exposure: [test2.expected[1] ?? NaN, test2.expected[0] ?? NaN] });
  expect([plain.lower, plain.upper]).toEqual([exact.lower, exact.upper]);
  const wider = pikeRatio(test2, 0.95, 4);
  const log = (limit: number | null, value: number | null) => Math.log((limit ?? NaN) / (value ?? NaN));
  expect(log(wider.lower, wider.value)).toBeCloseTo(2 * log(plain.lower, plain.value), 12);
  expect(log(wider.upper, wider.value)).toBeCloseTo(2 * log(plain.upper, plain.value), 12);
});

test('vehicles only ever widen; without a reference expected there is no ratio', () => {
  expect(vehicleInflation(test2)).toBe(1);
  const twice = {
    exit: [...numbers(aml, 'time'), ...numbers(aml, 'time')],
    event: [...numbers(aml, 'status'), ...numbers(aml, 'status')],
  };
  const cluster = [...group, ...group].map((_, row) => row % group.length);
  expect(vehicleInflation(logRank({ ...twice, group: [...group, ...group], cluster }))).toBeGreaterThan(1.3);
  expect(pikeRatio({ observed: Float64Array.of(0, 3), expected: Float64Array.of(0, 3) }, 0.95).value).toBeNull();
});
