import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { findingSchema, type Finding } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { fleet, many, type Life } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const answer = async (lives: readonly Life[], view: Partial<View> = {}): Promise<Finding> =>
  findingSchema.parse(await ask(await fleet(engine, lives), 'rules', viewSchema.parse(view)));
const share = (finding: Finding, rule: string) =>
  finding.groups.find(({ label }) => label.startsWith(rule))?.estimates['failedByHorizonHadNoneBeenRenewed']?.value;

// Forty seals, none late: with no one censored before the horizon a share is failures over lives.
const failed = { exit_miles: 60_000, state: 'failed', mode: 'seal-inner', onset_lower_miles: 20_000 };
const lives: Life[] = [
  ...many(8, () => failed),
  ...many(2, () => ({ ...failed, inferred: 'end' })),
  ...many(5, () => ({ exit_miles: 60_000, state: 'removed-unknown', onset_lower_miles: 60_000 })),
  ...many(25, (place) => ({
    exit_miles: 120_000,
    onset_lower_miles: 120_000,
    mileage_quality: place < 5 ? 'extrapolated' : 'measured',
  })),
];

describe('each rule by hand', () => {
  let finding: Finding;
  beforeAll(async () => {
    finding = await answer(lives);
  });

  test('as read: ten of forty', () => {
    expect(share(finding, 'as the records')).toBeCloseTo(10 / 40, 12);
  });
  test('only reported: eight of forty', () => {
    expect(share(finding, 'only failures')).toBeCloseTo(8 / 40, 12);
  });
  test('removals of unknown reason as failures: fifteen of forty', () => {
    expect(share(finding, 'removals for reasons')).toBeCloseTo(15 / 40, 12);
  });
  test('estimated miles out: ten of thirty-five', () => {
    expect(share(finding, 'miles carried')).toBeCloseTo(10 / 35, 12);
  });
  test('onset halfway falls by the horizon asked, found does not', async () => {
    // Found at 60,000, last dry at 20,000: halfway is 40,000.
    const early = await answer(lives, { horizonMiles: 45_000 });
    expect(share(early, 'as the records')).toBe(0);
    expect(share(early, 'leaks begin halfway')).toBeCloseTo(10 / 40, 12);
    expect(early.doubts.find(({ name }) => name === 'Choice of rule')?.state).toBe('fails');
    expect(early.answer).toContain('depends on a choice');
  });
  test('the strip holds the rules in their order', () => {
    expect(finding.series[0]?.columns['value']?.[0]).toBeCloseTo(10 / 40, 12);
    expect(finding.series[0]?.columns['value']?.length).toBe(finding.groups.length);
  });
});

test('unknown starts come in from the first mile watched', async () => {
  const unknown = many(10, () => ({
    ...{ exit_miles: null, exposure_miles: 30_000, install_kind: 'unknown', install_miles: null },
    ...{ state: 'failed', mode: 'seal-inner' },
  }));
  const finding = await answer([...lives, ...unknown]);
  expect(share(finding, 'as the records')).toBeCloseTo(10 / 40, 12);
  expect(share(finding, 'unknown starts')).toBeCloseTo(20 / 50, 12);
});

test('a ratio that some rule turns over is said to depend on a choice', async () => {
  // Of each role thirty lives; drive loses 10 by reports, trailer 6 by reports and 12 more that nobody reported.
  const role = (name: string, reported: number, inferred: number): Life[] =>
    many(30, (place) => ({
      ...{
        role: name,
        shop: 'A',
        exit_miles: 120_000 - 2_000 * place,
        life_id: `${name}${place}`,
        unit_id: `${name}${place}`,
      },
      ...(place < reported + inferred ? { state: 'failed', mode: 'seal-inner' } : {}),
      ...(place >= reported && place < reported + inferred ? { inferred: 'end' } : {}),
    }));
  const finding = await answer([...role('drive', 10, 0), ...role('trailer', 6, 12)], { by: ['role'] });
  const ratio = (rule: string) =>
    finding.groups.find(({ label }) => label.startsWith(rule))?.estimates['hazardRatio']?.value;
  expect(ratio('as the records') as number).toBeGreaterThan(1);
  expect(ratio('only failures') as number).toBeLessThan(1);
  expect(finding.answer).toContain('depends on a choice');
});
