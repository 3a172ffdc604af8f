import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  coxRegression,
  fitLife,
  logRank,
  poissonRegression,
  proportionalHazardsTest,
  turnbull,
  weibullRegression,
  type LifeData,
  type SurvivalData,
} from '../../lib/statistics/index.ts';

/**
 * Inputs that once broke a function: each file says `what` went wrong and holds the columns. Its replay stands here
 * under the file's name; a file without one fails.
 */
const replays: Record<string, (data: never) => void> = {
  'cox-one-cluster': (data: SurvivalData) => {
    const fit = coxRegression(data);
    expect(fit).toMatchObject({ clusters: 1, warnings: [{ kind: 'few-clusters' }] });
    expect(fit.robustStandardErrors).toBeUndefined();
    expect(fit.robustLower).toBeUndefined();
    expect(fit.tests.robustWald).toBeUndefined();
    expect(fit.concordance?.standardError).toBeNull();
  },

  'cox-firth-pair': (data: SurvivalData) => {
    const fit = coxRegression(data, { firth: true });
    // Its penalised likelihood has the slope 3/2 − 2θ/(θ + 1).
    expect(fit.converged).toBe(true);
    expect(fit.ratio[0]).toBeCloseTo(3, 9);
  },

  'fit-life-entered-after': (data: LifeData) => {
    for (const distribution of ['weibull', 'lognormal'] as const) {
      const fit = fitLife(data, { distribution });
      expect(fit.converged).toBe(false);
      expect(fit.warnings[0]).toMatch(/climbs with the shape without end/);
      expect(fit.covariance).toBeNull();
      expect(fit.lifeAt(0.1)).toMatchObject({ lower: 0, upper: Infinity });
      expect(fit.survivalAt(80)).toMatchObject({ lower: 0, upper: 1 });
    }
  },

  'log-rank-cancelled-scores': (data: SurvivalData) => {
    const { weight, ...columns } = data;
    const repeat = <Value>(column: ArrayLike<Value>): Value[] =>
      Array.from(column).flatMap((value, row) => Array.from({ length: weight![row] as number }, () => value));
    const repeated = Object.fromEntries(
      Object.entries(columns).map(([name, column]) => [name, repeat(column as number[])]),
    ) as unknown as SurvivalData;
    for (const lives of [data, repeated])
      expect(logRank(lives).robust).toMatchObject({
        statistic: null,
        reason: 'no event while more than one group was at risk',
      });
  },

  'proportional-hazards-one-failure': (data: SurvivalData) => {
    const test = proportionalHazardsTest(data);
    expect([...test.approximation.statistic, test.approximation.global]).toEqual([0, 0]);
    expect(test.global).toMatchObject({ statistic: 0, degreesOfFreedom: 0, pValue: 1 });
    expect(test.warnings).toMatchObject([{ kind: 'constant', term: 'load' }]);
  },

  'regressions-one-cluster': (data: Required<Pick<SurvivalData, 'exit' | 'event' | 'cluster' | 'covariates'>>) => {
    const { exit: exposure, event: events, cluster, covariates } = data;
    const fits = [
      coxRegression(data),
      weibullRegression(data),
      poissonRegression({ exposure, events, cluster, covariates }),
    ];
    for (const fit of fits) {
      expect(fit).toMatchObject({ clusters: 1, warnings: [{ kind: 'few-clusters' }] });
      expect(fit.robustStandardErrors).toBeUndefined();
      expect(fit.tests.robustWald).toBeUndefined();
    }
    const fit = fitLife(data, { distribution: 'weibull' });
    expect(fit).toMatchObject({ clusters: 1, converged: true });
    expect(fit.warnings[0]).toMatch(/one cluster/);
    expect(fit.robustCovariance).toBeUndefined();
    expect(fit.lifeAt(0.1).robust).toBeUndefined();
  },

  'turnbull-nobody-watched': (data: LifeData) => {
    const { intervals, survival } = turnbull(data);
    expect([...intervals.mass]).toEqual([0, 1]);
    expect([...survival]).toEqual([1, 0]);
  },
};

describe('inputs that once broke a function', () => {
  const folder = new URL('../reference/broke-once/', import.meta.url);
  const files = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));

  it('are all replayed', () => expect(Object.keys(replays).sort()).toEqual(files.sort()));

  it.each(Object.entries(replays))('%s', (name, replay) => {
    const { what, ...data } = JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8')) as { what: string };
    expect(what.length).toBeGreaterThan(40);
    replay(data as never);
  });
});
