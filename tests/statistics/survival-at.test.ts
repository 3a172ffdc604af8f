import { describe, expect, it } from 'vitest';
import { kaplanMeier, survivalAt, type SurvivalCurve } from '../../lib/statistics/index.ts';
import { check, loadCase } from '../reference/reference.ts';
import { KAPLAN_MEIER_CASES } from './kaplan-meier-cases.ts';

describe('survivalAt against R survival 3.5-3 survfit', () => {
  it.each(KAPLAN_MEIER_CASES)('$id', ({ id, data, options }) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'survivalAt', source: `${id}: ${source}` };
    const curves = kaplanMeier(data, { ...options, level: 0.95 });
    for (const want of expected) {
      const curve = curves.find(({ group }) => group === want.group.replace(/^.*=/, '')) as SurvivalCurve;
      const points = survivalAt(curve, want.time as number[]);
      check(
        about,
        points.map((point) => point.survival as number),
        want.surv,
        1e-9,
      );
      check(
        about,
        points.map((point) => point.atRisk),
        want.n_risk,
        1e-9,
      );
      if (!options?.robust)
        check(
          about,
          points.map((point) => point.upper as number),
          want.ci_loglog.upper,
          1e-9,
        );
    }
  });
});

describe('survivalAt by hand', () => {
  const [curve] = kaplanMeier({ exit: [2, 4, 6], event: [1, 1, 0], cluster: [1, 2, 3] }) as [SurvivalCurve];

  it('steps at events and holds between', () => {
    expect(survivalAt(curve, [5, 3.999, 2]).map((point) => point.survival)).toEqual([1 / 3, 2 / 3, 2 / 3]);
    expect(survivalAt(curve, 3)).toMatchObject({
      time: 3,
      atRisk: 2,
      robustStandardError: curve.robustStandardError![0],
    });
  });

  it('is 1 before the first exit, with the zero-event bound, and exactly 1 at 0', () => {
    expect(survivalAt(curve, 0)).toMatchObject({ survival: 1, lower: 1, upper: 1 });
    expect(survivalAt(curve, 1).lower).toBeCloseTo(0.025 ** (1 / 3), 14);
    expect(survivalAt(curve, 1).robustLower).toBeCloseTo(0.025 ** (1 / 3), 14);
    const [pair] = kaplanMeier({ exit: [2, 4, 6], event: [0, 1, 0], cluster: [1, 1, 2] });
    expect(survivalAt(pair!, 1)).toMatchObject({ robustLower: pair!.robustLower![0] });
    expect(pair!.robustLower![0]).toBeCloseTo(0.025 ** (1 / 2), 14);
  });

  it('is null with the reason beyond the last life, but 0 once the curve has reached 0', () => {
    expect(survivalAt(curve, 7)).toMatchObject({
      survival: null,
      lower: null,
      reason: 'the last life under observation ends at 6',
    });
    const [dead] = kaplanMeier({ exit: [1, 2], event: [1, 1] });
    expect(survivalAt(dead!, 9)).toMatchObject({ survival: 0, atRisk: 0 });
    const [empty] = kaplanMeier({ exit: [], event: [] });
    expect(survivalAt(empty!, 1)).toMatchObject({ survival: null, reason: 'no lives in this group' });
  });
});
