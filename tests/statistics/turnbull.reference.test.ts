import { describe, expect, it } from 'vitest';
import type { IntervalData } from '../../lib/statistics/life-rows.ts';
import { turnbull } from '../../lib/statistics/turnbull.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const TOLERANCE = 1e-5;

function spans(name: string, lower: string, upper: string): IntervalData {
  const data = loadData(name);
  return {
    lower: numbers(data, lower).map((value) => (Number.isNaN(value) ? 0 : value)),
    upper: numbers(data, upper).map((value) => (Number.isNaN(value) ? Infinity : value)),
  };
}

function turbine(): IntervalData {
  const data = loadData('turbine');
  const [hours, inspected, failed] = [numbers(data, 'hours'), numbers(data, 'inspected'), numbers(data, 'failed')];
  return {
    lower: [...hours.map(() => 0), ...hours],
    upper: [...hours, ...hours.map(() => Infinity)],
    weight: [...failed, ...inspected.map((count, row) => count - (failed[row] as number))],
  };
}

const cases: Record<string, () => IntervalData> = {
  'npmle-turbine': turbine,
  'npmle-salinity': () => spans('salinity', 'left', 'right'),
  'npmle-simvisits': () => spans('sim_interval_visits', 'lo', 'hi'),
};

describe('turnbull against maxima with Kuhn-Tucker gap 1e-15', () => {
  it.each(Object.keys(cases))('%s', (id) => {
    const { expected } = loadCase(id);
    const about = { method: 'turnbull', source: id };
    const fit = turnbull((cases[id] as () => IntervalData)());
    expect(fit.converged).toBe(true);
    expect(fit.gap).toBeLessThan(1e-9);
    check(about, fit.intervals.lower, expected.innermost_left_open, TOLERANCE);
    check(about, fit.intervals.upper, expected.innermost_right_closed, TOLERANCE);
    check(about, fit.intervals.mass, expected.mass, TOLERANCE);
    check(about, fit.survival, expected.surv_after_interval, TOLERANCE);
    check(about, fit.logLikelihood, expected.loglik, 1e-9);
  });
});
