import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import { briefGrounds, briefGroundsCatalogue } from '../../lib/questions/brief-grounds.ts';
import { briefGroundsSchema } from '../../shared/brief-grounds.ts';
import { fleet } from './fleet.ts';

// Four lives, every count below worked by hand: two failed, of which one had no clean check; one began before watching did.
const lives = [
  {
    state: 'failed',
    exit_miles: 40_000,
    onset_lower_miles: 30_000,
    mode: 'seal-inner',
    lubricant: 'oil',
    unit_id: 'A',
  },
  { state: 'failed', exit_miles: 20_000, onset_lower_miles: 0, mode: 'seal-inner', lubricant: 'oil', unit_id: 'A' },
  { state: 'running', entry_miles: 10_000, exit_miles: 60_000, lubricant: null, unit_id: 'B' },
  { state: 'planned', exit_miles: 5_000, mileage_quality: 'extrapolated', lubricant: 'oil', unit_id: 'B' },
].map((life) => ({ mileage_quality: 'measured', ...life }));

const engines: Engine[] = [];
beforeAll(async () => {
  engines.push(await openNodeEngine(), await openWasmEngine());
}, 60_000);
afterAll(() => Promise.all(engines.map((engine) => engine.close())));

describe('what a brief says of the records', () => {
  test('is counted alike by both engines, as by hand', async () => {
    const told = [];
    for (const engine of engines) told.push(await briefGrounds(await fleet(engine, lives), 'four lives'));
    expect(told[1]).toEqual(told[0]);
    const grounds = briefGroundsSchema.parse(told[0]);
    expect(grounds).toMatchObject({ vehicles: 2, lives: 4, failures: 2, miles: 40_000 + 20_000 + 50_000 + 5_000 });
    expect(grounds).toMatchObject({
      lateEntries: 1,
      unknownStarts: 0,
      failuresUnchecked: 1,
      tables: null,
      fields: null,
    });
    expect(grounds.states).toEqual([
      { value: 'failed', lives: 2 },
      { value: 'planned', lives: 1 },
      { value: 'running', lives: 1 },
    ]);
    expect(grounds.mileage).toEqual([
      { value: 'measured', lives: 3 },
      { value: 'extrapolated', lives: 1 },
    ]);
    expect(grounds.scope['lubricant']).toEqual([
      { value: 'oil', lives: 3 },
      { value: 'unknown', lives: 1 },
    ]);
  });

  test.each(Object.entries(briefGroundsCatalogue))('both engines explain: %s', async (_, { text, values }) => {
    for (const engine of engines)
      expect((await engine.query({ text: `explain ${text}`, values })).rows).toBeGreaterThan(0);
  });
});
