import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { createRandom } from '../../lib/statistics/index.ts';
import { findingSchema, type Finding } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { fleet, many, type Life } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const answer = async (lives: readonly Life[], view: Partial<View> = {}): Promise<Finding> =>
  findingSchema.parse(await ask(await fleet(engine, lives), 'repeats', viewSchema.parse(view)));
const group = (finding: Finding, label: string) => finding.groups.find((own) => own.label === label);
const failed = { state: 'failed', mode: 'seal-inner' };

describe('two lives a wheel end, by hand', () => {
  // Twelve first seals fail at 40,000, twelve are renewed there. Of the seconds that follow a failure six fail at
  // 10,000, of the others three; the rest run 80,000 miles.
  const first = (place: number): Life => ({
    ...{ life_id: `A${place}`, unit_id: `U${place}`, life_number: 1, exit_miles: 40_000 },
    ...(place < 12 ? failed : { state: 'planned' }),
  });
  const second = (place: number): Life => ({
    ...{ life_id: `B${place}`, unit_id: `U${place}`, life_number: 2, exit_miles: 80_000 },
    ...(place < 6 || (place >= 12 && place < 15) ? { ...failed, exit_miles: 10_000 } : {}),
  });
  let finding: Finding;
  beforeAll(async () => {
    finding = await answer([...many(24, first), ...many(24, second)]);
  });

  test('the share back within 25,000 miles', () => {
    expect(group(finding, 'after a failure')?.estimates['failedWithinEarly']?.value).toBeCloseTo(6 / 12, 12);
    expect(group(finding, 'after a renewal without a failure')?.estimates['failedWithinEarly']?.value).toBeCloseTo(
      3 / 12,
      12,
    );
  });
  test('lives by their number', () => {
    expect(group(finding, 'first there')).toMatchObject({ lives: 24, failures: 12 });
    expect(group(finding, 'second there')).toMatchObject({ lives: 24, failures: 9 });
    expect(group(finding, 'third there')).toBeUndefined();
  });
  test('mean failures a wheel end', () => {
    const columns = finding.series.find(({ name }) => name === 'mean-failures')?.columns;
    // At 40,000 watched 12 of 24, at 50,000 9 more of 24.
    expect(columns?.['miles']).toEqual([40_000, 50_000]);
    expect(columns?.['mean']?.[0]).toBeCloseTo(12 / 24, 12);
    expect(columns?.['mean']?.[1]).toBeCloseTo(12 / 24 + 9 / 24, 12);
    expect(finding.further).toContain('0.88 failures on average');
  });
});

test('a planted ratio after a failure lies within its limits', async () => {
  const random = createRandom(7);
  const lives = many(1200, (place): Life[] => {
    const fails = place % 2 === 0;
    // Exponential, 100,000 miles on average, and half of that after a failure.
    const age = (fails ? 50_000 : 100_000) * random.exponential();
    const common = { unit_id: `U${place}`, shop: 'A' };
    return [
      {
        ...common,
        life_id: `A${place}`,
        life_number: 1,
        exit_miles: 30_000,
        ...(fails ? failed : { state: 'planned' }),
      },
      {
        ...common,
        life_id: `B${place}`,
        life_number: 2,
        exit_miles: Math.min(age, 90_000),
        ...(age < 90_000 ? failed : {}),
      },
    ];
  }).flat();
  const ratio = group(await answer(lives), 'after a failure')?.estimates['hazardRatio'];
  expect(ratio?.lower as number).toBeLessThan(2);
  expect(ratio?.upper as number).toBeGreaterThan(2);
  expect(ratio?.lower as number).toBeGreaterThan(1.5);
});

test('nothing that follows a failure is too few to tell', async () => {
  const finding = await answer(many(12, (place) => ({ exit_miles: 50_000 + place, life_number: 1, ...failed })));
  expect(finding.answer).toContain('Too few to tell');
  expect(finding.firmness).toBe('too few');
});
