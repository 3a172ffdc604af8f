import { expect, test } from 'vitest';
import { settingsFingerprint, type RebuildSettings } from '../../lib/records/index.ts';
import { defaultChoices } from '../../shared/choices.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { commonPractice } from '../lives/record-tables-in-engine.ts';

const report = { fingerprint: 'abc' } as ReadReport;
const shipped: RebuildSettings = { procedures: [commonPractice], choices: defaultChoices };
const other: RebuildSettings = { ...shipped, procedures: [{ ...commonPractice, version: '2' }] };

test('the records alone are named while nothing was changed, and a change names itself every time alike', async () => {
  expect(await settingsFingerprint(report, shipped, structuredClone(shipped))).toBe('abc');
  const changed = await settingsFingerprint(report, shipped, other);
  expect(changed).toMatch(/^[0-9a-f]{64}$/);
  expect(await settingsFingerprint(report, shipped, structuredClone(other))).toBe(changed);
  expect(await settingsFingerprint({ fingerprint: 'abd' } as ReadReport, shipped, other)).not.toBe(changed);
  const choices = { ...defaultChoices, estimatedLives: 'out' as const };
  expect(await settingsFingerprint(report, shipped, { ...shipped, choices })).not.toBe('abc');
});
