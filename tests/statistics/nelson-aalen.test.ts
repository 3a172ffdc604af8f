import { describe, expect, it } from 'vitest';
import { nelsonAalen, StatisticsError, type SurvivalData } from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const columns = (name: string, exit: string, event: string, rest: Record<string, string> = {}): SurvivalData => {
  const data = loadData(name);
  return {
    exit: numbers(data, exit),
    event: numbers(data, event),
    ...Object.fromEntries(Object.entries(rest).map(([as, column]) => [as, data[column]])),
  };
};

describe('nelsonAalen against R survival 3.5-3 survfit', () => {
  it.each<[string, SurvivalData]>([
    ['na-genfan', columns('genfan', 'hours', 'status')],
    ['na-aml', columns('aml', 'time', 'status', { group: 'x' })],
    ['na-nickel-lefttrunc', columns('nickel', 'ageout', 'lung', { entry: 'agein' })],
    ['na-imotor', columns('imotor', 'time', 'status', { group: 'temp' })],
  ])('%s', (id, data) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'nelsonAalen', source: `${id}: ${source}` };
    const [aalen, binomial] = [nelsonAalen(data), nelsonAalen(data, { variance: 'binomial' })];
    for (const want of expected) {
      const place = aalen.findIndex(({ group }) => group === want.group.replace(/^.*=/, ''));
      const got = aalen[place]!;
      check(about, got.time, want.time, 0);
      check(about, got.atRisk, want.n_risk, 1e-12);
      check(about, got.events, want.n_event, 1e-12);
      check(about, got.cumulativeHazard, want.cumhaz, 1e-9);
      check(about, got.standardError, want.se_aalen, 1e-9);
      check(about, binomial[place]!.standardError, want.se_binomial, 1e-9);
    }
  });
});

describe('nelsonAalen by hand', () => {
  // Two events tied with a censoring at 2, a lone censoring at 3, an event at 5 that empties the risk set.
  const tiny = { exit: [2, 2, 2, 3, 5], event: [1, 1, 0, 0, 1] };

  it('works ties, a lone censoring and the last life', () => {
    const [curve] = nelsonAalen(tiny, { interval: 'plain' });
    [2 / 5, 2 / 5, 2 / 5 + 1].forEach((hazard, place) =>
      expect(curve!.cumulativeHazard[place]).toBeCloseTo(hazard, 14),
    );
    expect(curve!.standardError[2]).toBeCloseTo(Math.sqrt(2 / 25 + 1), 14);
    expect(curve!.upper[0]).toBeCloseTo(2 / 5 + 1.9599639845400545 * Math.sqrt(2 / 25), 13);
    expect(nelsonAalen(tiny, { variance: 'binomial' })[0]!.standardError[2]).toBeCloseTo(
      Math.sqrt((2 * 3) / (25 * 4)),
      14,
    );
  });

  it('keeps log limits positive and bounds the hazard before any event', () => {
    const [curve] = nelsonAalen({ exit: [1, 2, 3], event: [0, 1, 0] });
    expect(curve!.upper[0]).toBeCloseTo(-Math.log(0.025) / 3, 14);
    expect(curve!.lower[1]).toBeCloseTo(0.5 * Math.exp(-1.9599639845400545), 14);
  });

  it('works the robust error: influences (dN − d/n)/n summed by cluster', () => {
    const [curve] = nelsonAalen({ ...tiny, cluster: ['a', 'b', 'a', 'b', 'c'] });
    // At 2: n = 5, d = 2. Failures (1 − 2/5)/5, others −(2/5)/5. Cluster a and b: one of each; c: a survivor.
    const [failure, survivor] = [3 / 25, -2 / 25];
    const first = 2 * (failure + survivor) ** 2 + survivor ** 2;
    expect(curve!.robustStandardError![0]).toBeCloseTo(Math.sqrt(first), 14);
    // At 5 the only one at risk fails: (1 − 1)/1 adds nothing.
    expect(curve!.robustStandardError![2]).toBeCloseTo(Math.sqrt(first), 14);
    expect(curve!.clusters).toBe(3);
  });

  it('refuses what kaplanMeier refuses', () => {
    expect(() => nelsonAalen({ exit: [1], entry: [2], event: [1] })).toThrow(StatisticsError);
    expect(() => nelsonAalen({ exit: [1], event: [3] })).toThrow(StatisticsError);
    // @ts-expect-error not one of the kinds
    expect(() => nelsonAalen({ exit: [1], event: [1] }, { interval: 'log-log' })).toThrow(StatisticsError);
  });
});
