import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { standardisingWeights } from '../../lib/statistics/index.ts';

test('by hand: with one covariate the odds are those of each level, and both sides have one mix', () => {
  const exposed = [1, 0, 0, 0, 1, 1, 0];
  const steer = [0, 0, 0, 0, 1, 1, 1];
  const { weight, effectiveOthers, converged } = standardisingWeights({ exposed, covariates: { steer } });
  expect(converged).toBe(true);
  [1, 1 / 3, 1 / 3, 1 / 3, 1, 1, 2].forEach((wanted, row) => expect(weight[row]).toBeCloseTo(wanted, 5));
  // Σw = 3, Σw² = 1/3 + 4.
  expect(effectiveOthers).toBeCloseTo(9 / (1 / 3 + 4), 5);
});

test('by hand: a stratum says what a covariate says; one without an exposed life weighs nothing', () => {
  const exposed = [1, 0, 0, 1, 1, 0, 0, 0];
  const strata = ['a', 'a', 'a', 'b', 'b', 'b', 'c', 'c'];
  const { weight } = standardisingWeights({ exposed, strata });
  [1, 0.5, 0.5, 1, 1, 2].forEach((wanted, row) => expect(weight[row]).toBeCloseTo(wanted, 5));
  expect(weight[6]).toBeLessThan(1e-4);
});

test('one side only has no weights, and says why', () => {
  expect(standardisingWeights({ exposed: [0, 0] }).reason).toBe('no life has the exposure');
  expect(standardisingWeights({ exposed: [1, 1] }).reason).toBe('every life has the exposure');
});

test('an exposure that is neither 0 nor 1 is named with its row', () => {
  expect(() => standardisingWeights({ exposed: [0, 1, 2] })).toThrow('exposed[2]: is 2, not 0 or 1');
});

// tests/reference/causes/make-causes.R: glm(family = binomial) of R 4.2 on simulated lives.
test.each([
  ['dev_seal_cocked', 'seal_cocked'],
  ['dev_nut_backed_off', 'nut_backed_off'],
])('%s: the lives without it tell as much as R says (glm, 1e-6)', (column, key) => {
  const file = (name: string) => readFileSync(new URL(`../reference/causes/${name}`, import.meta.url), 'utf8');
  const expected = (JSON.parse(file('expected.json')) as Record<string, { effectiveOthers: number }>)[key];
  const [head = '', ...rows] = file('lives.csv').trim().split('\n');
  const names = head.split(',');
  const at = (name: string) => (row: string) => row.split(',')[names.indexOf(name)] ?? '';
  const known = rows.filter((row) => ['yes', 'no'].includes(at(column)(row)));
  const taken = ['role', 'lubricant', 'hub_build', 'duty'];
  const covariates = {
    ...Object.fromEntries(taken.map((name) => [name, categoryOf(known.map(at(name)))])),
    year: categoryOf(known.map((row) => at('install_date')(row).slice(0, 4))),
  };
  const exposed = known.map((row) => (at(column)(row) === 'yes' ? 1 : 0));
  const found = standardisingWeights({ exposed, covariates, strata: known.map(at('shop')) });
  expect(found.effectiveOthers / (expected?.effectiveOthers ?? NaN)).toBeCloseTo(1, 6);
});

function categoryOf(labels: readonly string[]) {
  const levels = [...new Set(labels)];
  return { levels, codes: Int32Array.from(labels, (label) => levels.indexOf(label)) };
}
