import { describe, expect, test } from 'vitest';
import { evidenceFor } from '../../app/_parts/procedure/conflict-words.ts';
import {
  ownSource,
  setApart,
  ticked,
  withCopy,
  withEnd,
  withOwnNames,
  withPart,
} from '../../app/_parts/procedure/edit-procedures.ts';
import { changeSays, procedureAnswer } from '../../app/_parts/procedure/judged-words.ts';
import { shownNumber, storedNumber, windowSays } from '../../app/_parts/procedure/procedure-words.ts';
import type { JudgedLives } from '../../app/_state/lives-desk.ts';
import { areProblems, checkedProcedures } from '../../shared/procedure-file.ts';
import { deviationCodes } from '../../shared/deviations.ts';
import { newtonMetresPerFtLb } from '../../shared/units.ts';
import { commonPractice } from '../lives/record-tables-in-engine.ts';

const common = [commonPractice];

describe('limits', () => {
  test('an end typed makes a limit, both ends blank unmake it', () => {
    expect(withEnd(null, 'minimum', 5)).toEqual({ minimum: 5, maximum: null, source: ownSource });
    const limit = { minimum: 250, maximum: 350, source: 'the maker' };
    expect(withEnd(limit, 'maximum', null)).toEqual({ ...limit, maximum: null });
    expect(withEnd(withEnd(limit, 'maximum', null), 'minimum', null)).toBeNull();
  });

  // 1 lbf·ft = 1.3558179483314004 N·m, 1 in = 25.4 mm (NIST SP 811).
  test('are shown and read in either system', () => {
    expect(shownNumber(250, 'torque', 'metric')).toBe('338.954');
    expect(shownNumber(0.005, 'length', 'metric')).toBe('0.127');
    expect(storedNumber('340', 'torque', 'metric')).toBeCloseTo(340 / newtonMetresPerFtLb, 12);
    expect(storedNumber(' 0,127 ', 'length', 'metric')).toBeCloseTo(0.005, 12);
    expect(storedNumber('', 'torque', 'us')).toBeNull();
    expect(storedNumber('about 300', 'torque', 'us')).toBeNaN();
    expect(windowSays({ minimum: 0.001, maximum: 0.005, source: 'x' }, 'endPlayIn', 'us')).toBe('0.001–0.005 in');
    expect(windowSays({ minimum: null, maximum: 350, source: 'x' }, 'innerTorqueFtLb', 'us')).toBe('up to 350 lbf·ft');
    expect(windowSays(null, 'innerTorqueFtLb', 'us')).toBe('not known');
  });

  test('what is no number stops the procedure from being applied, in its field', () => {
    const part = commonPractice.parts[0];
    const limit = withEnd(part?.limits.innerTorqueFtLb ?? null, 'minimum', Number.NaN);
    const edited = withPart(common, 0, 0, {
      limits: { ...(part?.limits as NonNullable<typeof part>['limits']), innerTorqueFtLb: limit },
    });
    const checked = checkedProcedures(edited);
    expect(areProblems(checked) && checked.map(({ path }) => path.join('.'))).toEqual([
      '0.parts.0.limits.innerTorqueFtLb.minimum',
    ]);
  });
});

test('a role set apart leaves one part and makes another, and both together still hold', () => {
  const parts = setApart(commonPractice, 0, 'steer');
  expect(parts.slice(0, 2).map(({ roles }) => roles)).toEqual([
    ['drive', 'tag', 'pusher', 'lift', 'trailer'],
    ['steer'],
  ]);
  expect(areProblems(checkedProcedures([{ ...commonPractice, parts }]))).toBe(false);
});

test('a copy is a version of its own, in the order of their days', () => {
  const { procedures, at } = withCopy(common, 0, '2022-05-01');
  expect([procedures.map(({ version, validFrom }) => [version, validFrom]), at]).toEqual([
    [
      ['1', '1970-01-01'],
      ['2', '2022-05-01'],
    ],
    1,
  ]);
});

test('what is edited under an applied name takes a name of its own, once', () => {
  const edited = [{ ...commonPractice, note: 'ours' }];
  const named = withOwnNames(common, edited);
  expect(named.map(({ version }) => version)).toEqual(['1, edited']);
  expect(withOwnNames(named, named)).toEqual(named);
  expect(withOwnNames(common, common)).toEqual(common);
});

test('a tick keeps the order of the vocabulary', () => {
  expect(ticked(['a', 'b', 'c'], ['c'], 'a')).toEqual(['a', 'c']);
  expect(ticked(['a', 'b', 'c'], ['a', 'c'], 'a')).toEqual(['c']);
});

const judged = (lives: number, yes: Record<string, number>): JudgedLives => ({
  ...{ lives, byVersion: [{ version: 0, lives }], conflicts: [] },
  counts: Object.fromEntries(
    deviationCodes.map((code) => [
      code,
      { yes: yes[code] ?? 0, no: 0, unknown: lives - (yes[code] ?? 0), 'not-applicable': 0 },
    ]),
  ),
});

test('what is judged, and what a change changed, read as sentences', () => {
  const [before, after] = [judged(1, { 'outer-torque-out': 0 }), judged(1, { 'outer-torque-out': 1 })];
  expect(procedureAnswer(common, after).text).toBe(
    'Lives are judged by one version, Common practice 1. It finds 1 deviation in 1 job; of what could deviate, 96\u00a0% is not told by the records.',
  );
  expect(procedureAnswer(common, judged(0, {})).text).toMatch(/nothing to judge\.$/);
  expect(changeSays({ before, after, changed: { 'outer-torque-out': 1 }, lives: 1 })).toBe(
    '1 life is judged otherwise than before. Lives that deviate: outer nut torque out of limits 0 → 1.',
  );
  expect(changeSays({ before, after: before, changed: {}, lives: 0 })).toBe('No life is judged otherwise than before.');
});

test('a contradiction says what each side rests on, in the reader’s units', () => {
  const conflict = {
    ...{ lifeId: 'l', unitId: '007', position: '1 left', serviceId: 's1', day: '2021-01-01', code: 'outer-torque-out' },
    ...{ says: { measured: 'no', recorded: 'yes', step: null } as const, value: 300, minimum: 250, maximum: 350 },
    ...{ listed: true, stated: null },
  };
  expect(evidenceFor('yes', conflict, 'us')).toBe('written down as a deviation');
  expect(evidenceFor('no', conflict, 'us')).toBe('outer nut torque 300, limits 250–350 lbf·ft');
  const backed = {
    ...{ ...conflict, code: 'seal-cocked', says: { measured: null, recorded: 'yes', step: 'no' } as const },
    ...{ value: null, minimum: null, maximum: null },
  };
  expect(evidenceFor('no', backed, 'us')).toBe('step “seal seated” done');
});
