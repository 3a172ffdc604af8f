import { describe, expect, it } from 'vitest';
import { coxRegression } from '../../lib/statistics/cox-regression.ts';
import { coxExpected, coxResiduals } from '../../lib/statistics/cox-residuals.ts';
import type { SurvivalData } from '../../lib/statistics/survival-data.ts';
import { check } from '../reference/reference.ts';
import { coxCases } from './cox-cases.ts';

const dataOf = (id: string): SurvivalData =>
  (coxCases.find((candidate) => candidate.id === id) as { data: SurvivalData }).data;
const heart = dataOf('cox-heart-timedependent');
const sum = (values: ArrayLike<number>) => Array.from(values).reduce((total, value) => total + value, 0);

describe('coxResiduals', () => {
  // residuals() of coxph on the Stanford heart data, R 4.2.2 survival 3.5-3, rows 1, 2, 4, 30, 172.
  const rows = [0, 1, 3, 29, 171];
  const martingale = [0.566661570647, 0.799670126442, 0.683299154943, 0.934369847609, 0.850945995116];
  const score = [
    [-9.29217863253, -1.72950371113, -0.0566946189951, -0.518493941467],
    [3.31969219728, -2.00910390932, -0.0574472100288, -0.107347882728],
    [4.69289262407, -1.80251331361, -0.05607715189, 0.491891298115],
    [7.06520329991, -1.43527280427, -0.0789004382375, 0.516628137217],
    [-7.12071495311, -2.39583957643, -0.0610432960453, -0.110526366456],
  ];
  const dfbeta = [
    [-0.001431683545184, -0.00967795903222, 0.004041488464249, -0.04316915982833],
    [0.00051436527202, -0.00939402518562, 0.003042482114686, -0.01504026684143],
    [0.000218029516103, -0.00778231480939, -0.000184725272612, 0.04277639652541],
    [0.000681621724749, -0.00556333944794, -0.005453466187523, 0.04328526822483],
    [-0.001487739096192, -0.01242639557708, 0.00531204202271, -0.00557653920164],
  ];
  const got = coxResiduals(heart, coxRegression(heart));
  const pick = (values: Float64Array) => rows.flatMap((row) => [...values.subarray(4 * row, 4 * row + 4)]);
  const about = { method: 'coxResiduals', source: 'R survival, heart' };

  it('equal those of R survival', () => {
    check(
      about,
      rows.map((row) => got.martingale[row] as number),
      martingale,
      1e-9,
    );
    check(about, pick(got.score), score.flat(), 1e-8);
    check(about, pick(got.dfbeta), dfbeta.flat(), 1e-8);
  });

  it('add up to nothing', () => {
    for (const { id, data } of coxCases) {
      const { martingale: left, score: scores } = coxResiduals(data, coxRegression(data));
      const weight = data.weight;
      expect(sum(weight ? left.map((value, row) => value * (weight[row] as number)) : left), id).toBeCloseTo(0, 8);
      const width = scores.length / data.exit.length;
      for (let j = 0; j < width; j++)
        expect(sum(scores.filter((_, index) => index % width === j)), id).toBeCloseTo(0, 5);
    }
  });
});

describe('coxExpected', () => {
  it('predicted without a covariate adds up to the observed in each stratum', () => {
    const data = dataOf('cox-veteran-strata');
    const fit = coxRegression(data);
    const { expected } = coxExpected(data, fit, { without: ['karno'] });
    const strata = data.strata as string[];
    for (const stratum of new Set(strata)) {
      const inside = [...strata.keys()].filter((row) => strata[row] === stratum);
      const observed = sum(inside.map((row) => data.event[row] as number));
      expect(sum(inside.map((row) => expected[row] as number))).toBeCloseTo(observed, 8);
    }
  });

  it('is the hazard over the time at risk: worked by hand', () => {
    // Ratio 2 for x = 1 (given, not fitted). At t = 2 at risk: rows 0, 1 (risks 2, 1), so 1/3; at t = 5: rows 1, 2, 3
    // (1, 2, 1), so 1/4. Row 2 enters at 3, row 3 at 2: after its event.
    const data = { entry: [0, 0, 3, 2], exit: [2, 5, 6, 7], event: [1, 1, 0, 0], covariates: { x: [1, 0, 1, 0] } };
    const fit = {
      terms: ['x'],
      coefficients: Float64Array.of(Math.log(2)),
      covariance: Float64Array.of(1),
      ties: 'breslow',
    } as const;
    const { expected, martingale } = coxExpected(data, fit);
    expect([...expected].map((value) => value * 12)).toEqual([8, 7, 6, 3].map((value) => expect.closeTo(value, 12)));
    expect(martingale[0]).toBeCloseTo(1 / 3, 12);
  });
});
