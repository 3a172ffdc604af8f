import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { areProblems, proceduresFile, proceduresInFile } from '../../shared/procedure-file.ts';
import { procedureSchema, type Procedure } from '../../shared/procedure.ts';

const shipped = readFileSync(new URL('../../data/default-procedure.json', import.meta.url), 'utf8');
const common = procedureSchema.parse(JSON.parse(shipped));

const problems = (value: unknown): string[] => {
  const checked = proceduresInFile(typeof value === 'string' ? value : JSON.stringify(value));
  return areProblems(checked) ? checked.map(({ where, says }) => `${where}: ${says}`) : [];
};

test('versions written are read again as they were', () => {
  const versions = [common, { ...common, version: '2', validFrom: '2022-01-01' }];
  expect(proceduresInFile(proceduresFile(versions))).toEqual(versions);
  expect(proceduresInFile(shipped)).toEqual([common]);
  expect(proceduresInFile(JSON.stringify([common]))).toEqual([common]);
  expect(proceduresInFile(JSON.stringify({ name: 'a record set', procedures: versions }))).toEqual(versions);
});

describe('what is wrong is said field by field', () => {
  const changed = (change: (procedure: Record<string, unknown> & Procedure) => void): unknown => {
    const copy = structuredClone(common) as Record<string, unknown> & Procedure;
    change(copy);
    return copy;
  };
  const part = (change: Record<string, unknown>) => changed((copy) => Object.assign(copy.parts[1] as object, change));

  test.each<[string, unknown, string]>([
    ['no JSON', '{"name": ', 'the file as a whole: has to be JSON; '],
    [
      'a text for a limit',
      part({ limits: { ...common.parts[1]?.limits, endPlayIn: { minimum: '0.001', maximum: 0.005, source: 'x' } } }),
      'version 1, part 2, end play, minimum: has to be a number; found "0.001"',
    ],
    [
      'limits the wrong way round',
      part({ limits: { ...common.parts[1]?.limits, outerTorqueFtLb: { minimum: 300, maximum: 200, source: 'x' } } }),
      'version 1, part 2, outer nut torque: minimum must not exceed maximum',
    ],
    [
      'a negative torque',
      part({ limits: { ...common.parts[1]?.limits, innerTorqueFtLb: { minimum: -5, maximum: 200, source: 'x' } } }),
      'version 1, part 2, inner nut torque, minimum: has to be at least 0; found -5',
    ],
    ['no source', part({ source: '' }), 'version 1, part 2, source: must not be empty; found ""'],
    [
      'a step nobody knows',
      part({ steps: ['step_prayed'] }),
      'version 1, part 2, step 1: has to be one of step_cavity_cleaned',
    ],
    [
      'a date that is none',
      changed((copy) => (copy.validFrom = '1.1.2024')),
      'version 1, valid from: has to be a day written 2024-12-31; found "1.1.2024"',
    ],
    [
      'an interval of nothing',
      part({ serviceIntervalMiles: 0 }),
      'version 1, part 2, service interval: has to be more than 0; found 0',
    ],
    ['no parts', changed((copy) => (copy.parts = [])), 'version 1, part: must not be empty; found []'],
    [
      'a role in two parts',
      part({ roles: ['steer', 'drive'] }),
      'version 1, part 3, axle role 1: each role of a hub build stands in one part only; drive of adjusted stands in two',
    ],
    [
      'two versions of one day',
      [common, common],
      'version 2, valid from: two versions cannot begin on one day; 1970-01-01 begins two',
    ],
    ['something else', 7, 'version 1: has to be an object; found 7'],
    ['nothing', [], 'the file as a whole: must not be empty; found []'],
  ])('%s', (_name, value, says) => {
    const [first, ...more] = problems(value);
    expect(first?.slice(0, says.length)).toBe(says);
    expect(more).toEqual([]);
  });
});
