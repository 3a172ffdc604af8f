import { describe, expect, it } from 'vitest';
import { kaplanMeier, StatisticsError, type SurvivalCurve } from '../../lib/statistics/index.ts';
import { check, loadCase } from '../reference/reference.ts';
import { INTERVALS, KAPLAN_MEIER_CASES } from './kaplan-meier-cases.ts';

const label = (group: string): string => group.replace(/^.*=/, '');
const own = (curves: readonly SurvivalCurve[], group: string): SurvivalCurve =>
  curves.find((curve) => curve.group === label(group)) as SurvivalCurve;

describe('kaplanMeier against R survival 3.5-3 survfit', () => {
  it.each(KAPLAN_MEIER_CASES)('$id', ({ id, data, options }) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'kaplanMeier', source: `${id}: ${source}` };
    const robust = options?.robust === true;
    for (const [interval, key] of INTERVALS) {
      const curves = kaplanMeier(data, { ...options, interval });
      expect(curves).toHaveLength(expected.length);
      for (const want of expected) {
        const got = own(curves, want.group);
        check(about, got.time, want.time, 0);
        check(about, got.atRisk, want.n_risk, 1e-9);
        check(about, got.events, want.n_event, 1e-9);
        check(about, got.censored, want.n_censor, 1e-9);
        check(about, got.survival, want.surv, 1e-9);
        const limits = want[`ci_${key}`];
        check(about, (robust ? got.robustStandardError : got.standardError) as Float64Array, want.std_err_surv, 1e-9);
        check(about, (robust ? got.robustLower : got.lower) as Float64Array, limits.lower, 1e-9);
        check(about, (robust ? got.robustUpper : got.upper) as Float64Array, limits.upper, 1e-9);
      }
    }
  });
});

describe('kaplanMeier by hand', () => {
  // Two events tied with a censoring at 2, a lone censoring at 3, an event at 5, the last row censored at 6.
  const tiny = { exit: [2, 2, 2, 3, 5, 6], event: [1, 1, 0, 0, 1, 0] };

  it('works ties, a censoring tied with events and a lone censoring', () => {
    const [curve] = kaplanMeier(tiny, { interval: 'plain' });
    expect(curve).toMatchObject({ group: 'all', emptiedAt: null });
    expect([...curve!.time]).toEqual([2, 3, 5, 6]);
    expect([...curve!.atRisk]).toEqual([6, 3, 2, 1]);
    expect([...curve!.entered]).toEqual([6, 0, 0, 0]);
    expect([...curve!.events]).toEqual([2, 0, 1, 0]);
    expect([...curve!.censored]).toEqual([1, 1, 0, 1]);
    const s = [4 / 6, 4 / 6, (4 / 6) * (1 / 2), (4 / 6) * (1 / 2)];
    const v = [2 / (6 * 4), 2 / (6 * 4), 2 / (6 * 4) + 1 / (2 * 1), 2 / (6 * 4) + 1 / (2 * 1)];
    s.forEach((value, place) => {
      expect(curve!.survival[place]).toBeCloseTo(value, 14);
      expect(curve!.standardError[place]).toBeCloseTo(value * Math.sqrt(v[place]!), 14);
    });
    // 1.9599639845400545 is the 97.5 % point of the normal distribution.
    expect(curve!.lower[0]).toBeCloseTo(4 / 6 - 1.9599639845400545 * (4 / 6) * Math.sqrt(1 / 12), 13);
  });

  it('works delayed entry: at risk after entry, up to and with exit', () => {
    const [curve] = kaplanMeier({ entry: [0, 0, 2, 4], exit: [2, 5, 4, 6], event: [1, 1, 1, 0] });
    // At 2 only the first two rows are at risk: the third enters at 2, after the event there. At 4 the fourth likewise.
    expect([...curve!.atRisk]).toEqual([2, 2, 2, 1]);
    expect([...curve!.entered]).toEqual([2, 1, 1, 0]);
    expect([...curve!.survival]).toEqual([1 / 2, 1 / 4, 1 / 8, 1 / 8]);
  });

  it('falls to zero and stays when the risk set runs empty early, and says when', () => {
    const [curve] = kaplanMeier({ entry: [0, 1, 3, 3], exit: [2, 2, 5, 6], event: [1, 1, 1, 0] });
    expect([...curve!.survival]).toEqual([0, 0, 0]);
    expect([...curve!.standardError]).toEqual([0, 0, 0]);
    expect([...curve!.lower]).toEqual([0, 0, 0]);
    // Two of two failed: the exact upper limit is 1 − 0.025^(1/2).
    for (const upper of curve!.upper) expect(upper).toBeCloseTo(1 - Math.sqrt(0.025), 14);
    expect(curve!.emptiedAt).toBe(2);
  });

  it('gives the zero-event bound before the first event on the log-log scale', () => {
    const [curve] = kaplanMeier({ exit: [1, 2, 3], event: [0, 0, 1] });
    expect(curve!.lower[0]).toBeCloseTo(0.025 ** (1 / 3), 14);
    expect(curve!.lower[1]).toBeCloseTo(0.025 ** (1 / 2), 14);
    expect([...kaplanMeier({ exit: [1, 2], event: [0, 0] }, { interval: 'log' })[0]!.lower]).toEqual([1, 1]);
  });

  it('works the robust error of two clusters', () => {
    // Rows at risk 0–1 (event) and 0–2 (censored) in cluster a, 0–3 (event), 0–4 in b: S = 3/4 at 1.
    // Influences on S(1): ∂S/∂w = (Y − dN)/n − (n − d)Y/n² = 1/4 − 3/16 = 1/16 for survivors, −3/16 for the failure.
    const [curve] = kaplanMeier({ exit: [1, 2, 3, 4], event: [1, 0, 1, 0], cluster: ['a', 'a', 'b', 'b'] });
    expect(curve!.clusters).toBe(2);
    expect(curve!.robustStandardError![0]).toBeCloseTo(Math.sqrt((1 / 16 - 3 / 16) ** 2 + (2 / 16) ** 2), 14);
    // After the event at 3 (n = 2, d = 1) S = 3/8; row 3: 3/8·(1/12 + 1/2 − 1), row 4: 3/8·(1/12 + 1/2), a as before but 3/8.
    const a = (3 / 8) * (1 / 12 + (1 / 12 - 1 / 3));
    const b = (3 / 8) * (1 / 12 + 1 / 2 - 1 + 1 / 12 + 1 / 2);
    expect(curve!.robustStandardError![2]).toBeCloseTo(Math.sqrt(a * a + b * b), 14);
  });

  it('leaves the robust error out when there is but one cluster', () => {
    const [curve] = kaplanMeier({ exit: [1, 2], event: [1, 0], cluster: [7, 7] });
    expect(curve).toMatchObject({ clusters: 1 });
    expect(curve).not.toHaveProperty('robustStandardError');
  });
});

describe('kaplanMeier on degenerate input', () => {
  it('gives empty curves for no rows and unused levels', () => {
    expect(kaplanMeier({ exit: [], event: [] })[0]!.time).toHaveLength(0);
    const group = { levels: ['a', 'b'], codes: [1, 1] };
    const [unused, used] = kaplanMeier({ exit: [1, 2], event: [1, 0], group });
    expect(unused!.time).toHaveLength(0);
    expect(used!.time).toHaveLength(2);
  });

  it.each([
    ['exit', { exit: [1, 5], entry: [0, 5], event: [1, 1] }, 1],
    ['exit', { exit: [1, NaN], event: [1, 1] }, 1],
    ['exit', { exit: [-1, 2], event: [1, 1] }, 0],
    ['event', { exit: [1, 2], event: [1, 2] }, 1],
    ['event', { exit: [1, 2], event: [1] }, null],
    ['weight', { exit: [1, 2], event: [1, 0], weight: [1, -1] }, 1],
    ['group', { exit: [1, 2], event: [1, 0], group: { levels: ['a'], codes: [0, 1] } }, 1],
    ['entry', { exit: [1, 2], entry: [0], event: [1, 0] }, null],
  ])('refuses a bad %s, naming the row', (argument, data, row) => {
    const thrown = (() => {
      try {
        return kaplanMeier(data);
      } catch (error) {
        return error;
      }
    })();
    expect(thrown).toBeInstanceOf(StatisticsError);
    expect(thrown).toMatchObject({ argument, row });
  });

  it('refuses a bad level or interval', () => {
    expect(() => kaplanMeier({ exit: [1], event: [1] }, { level: 95 })).toThrow(StatisticsError);
    // @ts-expect-error not one of the kinds
    expect(() => kaplanMeier({ exit: [1], event: [1] }, { interval: 'logit' })).toThrow(StatisticsError);
  });

  it('counts an exit at 0 without entry as at risk from the start', () => {
    const [curve] = kaplanMeier({ exit: [0, 1], event: [1, 1] });
    expect([...curve!.survival]).toEqual([0.5, 0]);
  });

  it('never puts NaN in a field, at any time unit', () => {
    for (const unit of [1e-300, 1, 1e300])
      for (const event of [
        [0, 0, 0],
        [1, 1, 1],
        [0, 1, 1],
        [1, 0, 0],
      ]) {
        const exit = [1 * unit, 2 * unit, 2 * unit];
        for (const [interval] of INTERVALS) {
          const [curve] = kaplanMeier({ exit, event, cluster: [1, 2, 1] }, { interval });
          for (const values of Object.values(curve!))
            if (values instanceof Float64Array) expect(values.every(Number.isFinite)).toBe(true);
        }
      }
  });
});
