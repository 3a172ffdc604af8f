import { describe, expect, it } from 'vitest';
import {
  cumulativeIncidence,
  kaplanMeier,
  StatisticsError,
  type IncidenceCurve,
  type SurvivalData,
} from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const mgus2 = loadData('mgus2');
const nickel = loadData('nickel');
const fourD = loadData('fourD');
const CASES: [string, SurvivalData][] = [
  ['cr-mgus2-sex', { exit: numbers(mgus2, 'etime'), event: numbers(mgus2, 'event'), group: mgus2['sex'] as string[] }],
  [
    'cr-nickel-lefttrunc',
    {
      entry: numbers(nickel, 'agein'),
      exit: numbers(nickel, 'ageout'),
      event: numbers(nickel, 'lung').map((lung, row) => (lung === 1 ? 1 : numbers(nickel, 'dead')[row] === 1 ? 2 : 0)),
      group: numbers(nickel, 'exposed'),
    },
  ],
  ['cr-fourd', { exit: numbers(fourD, 'time'), event: numbers(fourD, 'status') }],
];

describe('cumulativeIncidence against R: survival 3.5-3, etm 1.1.1, cmprsk 2.2-11', () => {
  it.each(CASES)('%s', (id, data) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'cumulativeIncidence', source: `${id}: ${source}` };
    const curves = cumulativeIncidence(data, { robust: true, interval: 'log' });
    for (const want of expected.curves)
      for (const { cause, ...wanted } of want.causes) {
        const got = curves.find((curve) => curve.group === want.group && curve.cause === cause) as IncidenceCurve;
        // The reference lists times of events only.
        const at = want.time.map((time: number) => got.time.indexOf(time));
        const along = (values: Float64Array): number[] => at.map((place: number) => values[place]);
        check(about, along(got.atRisk), want.n_risk, 1e-12);
        check(about, along(got.events), wanted.n_event, 1e-12);
        check(about, along(got.survival), want.surv, 1e-9);
        check(about, along(got.incidence), wanted.cif, 1e-7);
        if (wanted.se_greenwood_etm) check(about, along(got.standardError), wanted.se_greenwood_etm, 1e-7);
        check(about, along(got.robustStandardError!), wanted.r_survfit_std_err, 1e-7);
        check(about, along(got.robustLower!), wanted.r_survfit_lower_log, 1e-7);
        check(about, along(got.robustUpper!), wanted.r_survfit_upper_log, 1e-7);
      }
    if (!expected.cmprsk_cuminc) return;
    const aalen = cumulativeIncidence(data, { variance: 'aalen' });
    for (const [name, want] of Object.entries<{ time: number[]; est: number[]; var: number[] }>(
      expected.cmprsk_cuminc,
    )) {
      const [group, cause] = name.split(' ') as [string, string];
      const got = aalen.find(
        (curve) => curve.cause === Number(cause) && [curve.group, '1'].includes(group),
      ) as IncidenceCurve;
      // cmprsk starts its curves at time 0 and carries them to the last time of the group.
      want.time.forEach((time, place) => {
        const at = got.time.indexOf(time);
        if (at < 0) return expect(want.est[place]).toBe(0);
        check(about, got.incidence[at]!, want.est[place]!, 1e-7);
        return check(about, got.standardError[at]! ** 2, want.var[place]!, 1e-7);
      });
    }
  });
});

describe('cumulativeIncidence by hand', () => {
  // At 2 one event of each cause and a censoring among 5; a lone censoring at 3; at 4 the last fails of cause 2.
  const tiny = { exit: [2, 2, 2, 3, 4], event: [1, 2, 0, 0, 2] };

  it('works ties between causes and a censoring, and the last life', () => {
    const [one, two] = cumulativeIncidence(tiny) as [IncidenceCurve, IncidenceCurve];
    expect([...one.time]).toEqual([2, 3, 4]);
    expect([...one.incidence]).toEqual([1 / 5, 1 / 5, 1 / 5]);
    expect(two.incidence[2]).toBeCloseTo(1 / 5 + 3 / 5, 14);
    expect(one.survival[2]).toBe(0);
    // F₁ at 2 is a proportion of 5: variance 1/5·4/5/5. At 4 nothing is left to chance: all at risk fail of cause 2.
    expect(one.standardError[0]).toBeCloseTo(Math.sqrt((0.2 * 0.8) / 5), 14);
    // F₂ = 1/5 + S(2)·1 with S = 3/5: 1 − F₁, so its error is that of F₁.
    expect(two.standardError[2]).toBeCloseTo(Math.sqrt((0.2 * 0.8) / 5), 14);
    // log(−log F) limits of 1/5.
    const reach = (1.9599639845400545 * one.standardError[0]!) / (0.2 * Math.log(0.2));
    expect(one.lower[0]).toBeCloseTo(0.2 ** Math.exp(-reach), 13);
  });

  it('gives the curves asked for as if all had been', () => {
    const [one, two] = cumulativeIncidence({ ...tiny, cluster: tiny.exit });
    expect(cumulativeIncidence({ ...tiny, cluster: tiny.exit }, { causes: [1] })).toEqual([one]);
    expect(cumulativeIncidence({ ...tiny, cluster: tiny.exit }, { causes: [7, 2] })).toEqual([two]);
    expect(() => cumulativeIncidence(tiny, { causes: [1, 0] })).toThrow('causes');
  });

  it('with cmprsk variance adds the causes as if drawn apart', () => {
    const [one] = cumulativeIncidence(tiny, { variance: 'aalen' }) as [IncidenceCurve];
    expect(one.standardError[0]).toBeCloseTo(Math.sqrt(1 / 25), 14);
  });

  it('with one cause is one minus Kaplan–Meier, errors included', () => {
    const data = {
      entry: [0, 1, 0, 0, 2, 0],
      exit: [3, 3, 4, 5, 6, 2],
      event: [1, 0, 1, 1, 1, 0],
      cluster: [1, 1, 2, 2, 3, 3],
    };
    const [incidence] = cumulativeIncidence(data) as [IncidenceCurve];
    const [curve] = kaplanMeier(data);
    curve!.survival.forEach((survival, place) => {
      expect(incidence.incidence[place]).toBeCloseTo(1 - survival, 14);
      expect(incidence.robustStandardError![place]).toBeCloseTo(curve!.robustStandardError![place]!, 14);
      if (survival > 0) expect(incidence.standardError[place]).toBeCloseTo(curve!.standardError[place]!, 14);
    });
  });

  it('bounds an incidence of zero and gives every cause in every group', () => {
    const curves = cumulativeIncidence({ exit: [1, 2, 3], event: [0, 3, 1], group: ['a', 'a', 'b'] });
    expect(curves.map(({ group, cause }) => [group, cause])).toEqual([
      ['a', 1],
      ['a', 3],
      ['b', 1],
      ['b', 3],
    ]);
    expect(curves[0]!.upper[0]).toBeCloseTo(1 - 0.025 ** (1 / 2), 14);
    expect([...curves[0]!.lower]).toEqual([0, 0]);
  });

  it.each([
    ['event', { exit: [1, 2], event: [1, 1.5] }],
    ['event', { exit: [1, 2], event: [1, 256] }],
    ['event', { exit: [1, 2], event: [1, -1] }],
    ['exit', { exit: [1, 2], entry: [1, 0], event: [1, 0] }],
  ])('refuses a bad %s', (argument, data) => {
    expect(() => cumulativeIncidence(data)).toThrow(StatisticsError);
    expect(() => cumulativeIncidence(data)).toThrow(argument);
  });

  it('gives no curves without events or rows, and never NaN', () => {
    expect(cumulativeIncidence({ exit: [1], event: [0] })).toEqual([]);
    expect(cumulativeIncidence({ exit: [], event: [] })).toEqual([]);
    for (const interval of ['plain', 'log', 'log-log'] as const)
      for (const curve of cumulativeIncidence({ exit: [1, 1, 1], event: [1, 1, 1], cluster: [1, 2, 3] }, { interval }))
        for (const values of Object.values(curve))
          if (values instanceof Float64Array) expect(values.every(Number.isFinite)).toBe(true);
  });
});
