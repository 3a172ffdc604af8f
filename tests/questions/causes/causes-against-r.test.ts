import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { ask } from '../../../lib/questions/index.ts';
import { findingSchema, type Finding, type Group } from '../../../shared/finding.ts';
import { viewSchema } from '../../../shared/view.ts';
import { fleet, type Life } from '../fleet.ts';

// tests/reference/causes/make-causes.R: simulated lives, and what R's survival 3.5-3 makes of them.
const folder = new URL('../../reference/causes/', import.meta.url);
const text = (name: string) => readFileSync(new URL(name, folder), 'utf8');

function livesOf(csv: string): Life[] {
  const [head = '', ...rows] = csv.trim().split('\n');
  const names = head.split(',');
  return rows.map((row) => {
    const cells = row.split(',');
    return Object.fromEntries(names.map((name, at) => [name, cells[at] === '' ? null : (cells[at] ?? null)]));
  });
}

interface FromR {
  readonly coefficient: number;
  readonly model: number;
  readonly robust: number;
}
type Expected = Readonly<Record<'crude' | 'adjusted' | 'early' | 'later' | 'vehicle' | 'axle', FromR>> & {
  readonly lives: Readonly<Record<string, number>>;
  readonly failures: Readonly<Record<string, number>>;
  readonly logRank: number;
  readonly hadNone: { readonly no: number; readonly yes: number };
  readonly underRenewals: { readonly no: number; readonly yes: number };
  readonly meanDifference: number;
  readonly meanDifferenceAlike: number;
};
const expected = JSON.parse(text('expected.json')) as Record<string, Expected>;

let engine: Engine;
let finding: Finding;
beforeAll(async () => {
  engine = await openNodeEngine();
  finding = findingSchema.parse(
    await ask(await fleet(engine, livesOf(text('lives.csv'))), 'causes', viewSchema.parse({})),
  );
}, 60_000);
afterAll(() => engine.close());

const z = 1.959963984540054;
const names = {
  crude: 'crudeHazardRatio',
  adjusted: 'hazardRatio',
  early: 'earlyHazardRatio',
  later: 'laterHazardRatio',
  vehicle: 'sameVehicleHazardRatio',
  axle: 'otherSideHazardRatio',
} as const;

describe.each([
  ['seal-cocked', 'seal_cocked'],
  ['nut-backed-off', 'nut_backed_off'],
])('%s', (code, key) => {
  const from = expected[key] as Expected;
  const group = (): Group => {
    const found = finding.groups.find(({ label }) => label === code);
    if (!found) throw new Error(`no group ${code}`);
    return found;
  };
  const value = (name: string) => group().estimates[name]?.value ?? NaN;

  test('lives and failures with, without and not known', () => {
    const { lives, failures, counts } = group();
    expect([lives, counts['livesWithout'], counts['livesUnknown']]).toEqual([
      from.lives['yes'],
      from.lives['no'],
      from.lives['unknown'],
    ]);
    expect([failures, counts['failuresWithout'], counts['failuresUnknown']]).toEqual([
      from.failures['yes'],
      from.failures['no'],
      from.failures['unknown'],
    ]);
  });

  test.each(Object.entries(names))('the %s ratio with model and robust limits (coxph, Efron, 1e-6)', (which, name) => {
    const { coefficient, model, robust } = from[which as keyof typeof names];
    const estimate = group().estimates[name];
    const log = (limit: number | null | undefined) => Math.log(limit ?? NaN);
    expect(log(estimate?.value)).toBeCloseTo(coefficient, 6);
    expect(log(estimate?.lower)).toBeCloseTo(coefficient - z * model, 6);
    expect(log(estimate?.upper)).toBeCloseTo(coefficient + z * model, 6);
    expect(log(estimate?.vehicleLower)).toBeCloseTo(coefficient - z * robust, 6);
    expect(log(estimate?.vehicleUpper)).toBeCloseTo(coefficient + z * robust, 6);
  });

  test('the log-rank statistic, which without ties is the score test of coxph (1e-6)', () => {
    expect(group().counts['logRankStatistic']).toBeCloseTo(from.logRank, 6);
  });

  test('shares failed by the horizon both ways and the difference in mean life (survfit, 1e-9)', () => {
    expect(value('failedByHorizonHadNoneBeenRenewed')).toBeCloseTo(from.hadNone.yes, 9);
    expect(value('failedByHorizonHadNoneBeenRenewedWithout')).toBeCloseTo(from.hadNone.no, 9);
    expect(value('failedByHorizonUnderRenewals')).toBeCloseTo(from.underRenewals.yes, 9);
    expect(value('failedByHorizonUnderRenewalsWithout')).toBeCloseTo(from.underRenewals.no, 9);
    expect(value('crudeRestrictedMeanDifference')).toBeCloseTo(from.meanDifference, 3);
  });

  test('the difference in mean life like with like (glm of who has it, survfit with its odds as weights; 0.01 miles)', () => {
    expect(value('restrictedMeanDifference')).toBeCloseTo(from.meanDifferenceAlike, 2);
  });
});

test('what was planted is ranked first and beyond chance; the other ratio holds what it was planted with', () => {
  expect(finding.groups[0]?.label).toBe('seal-cocked');
  expect(finding.groups[0]?.counts['pCorrected']).toBeLessThan(1e-6);
  expect(finding.answer).toMatch(/2\.2 times as often/);
  expect(finding.answer).not.toMatch(/protect|prove[sd] to cause|because/);
});
