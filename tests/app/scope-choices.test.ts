import { readdirSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { demoFiles } from '../../app/_state/demo-files.ts';
import { seldom } from '../../app/_state/seldom.ts';
import { recordTotals, scopeChoices } from '../../app/_state/scope-choices.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import { rebuild, type Row } from '../lives/record-tables-in-engine.ts';

const service = (id: string, date: string, miles: number, rest: Row = {}): Row => ({
  ...{ service_id: id, unit_id: 'T1', axle: 2, side: 'left', date, miles, replaced: 'seal', reason: 'planned' },
  ...{ hub_build: 'spacer', lubricant: 'oil', shop: 'North' },
  ...rest,
});

/** One new tractor whose left drive seal is renewed twice, once with the nut backed off. */
const fleet = {
  units: [
    { unit_id: 'T1', axle_roles: 'steer;drive', acquired: 'new', in_service_date: '2020-01-01', in_service_miles: 0 },
  ],
  readings: [{ unit_id: 'T1', date: '2023-01-01', miles: 300_000 }],
  services: [
    service('S1', '2021-01-01', 100_000, { nut_backed_off: 'yes' }),
    service('S2', '2022-01-01', 200_000, { nut_backed_off: 'no', lubricant: 'packed', shop: 'South' }),
  ],
};

const engines: Record<string, Engine> = {};
beforeAll(async () => {
  engines['native'] = await openNodeEngine();
  engines['wasm'] = await openWasmEngine();
  for (const engine of Object.values(engines))
    await (await rebuild(engine, fleet, { from: '2020-01-01', to: '2023-01-01' })).ensure('seal');
}, 60_000);
afterAll(async () => {
  for (const engine of Object.values(engines)) await engine.close();
});

test.each(['native', 'wasm'])('what can be chosen is what the lives hold, on the %s engine', async (name) => {
  const engine = engines[name] as Engine;
  const { columns, deviations, firstYear, lastYear } = await scopeChoices(engine);
  const values = (column: string) => columns.find((offered) => offered.column === column)?.values;
  // Four wheel ends begin with the unit; the left drive end has two renewals besides: 4 + 2 lives.
  expect(values('role')).toEqual([
    { value: 'drive', lives: 4 },
    { value: 'steer', lives: 2 },
  ]);
  expect(values('position')?.[0]).toEqual({ value: '2 left', lives: 3 });
  expect(values('lubricant')).toEqual([
    { value: 'unknown', lives: 4 },
    { value: 'oil', lives: 1 },
    { value: 'packed', lives: 1 },
  ]);
  // Whole numbers stand without a point.
  expect(values('axle')?.map(({ value }) => value)).toEqual(['2', '1']);
  expect(deviations.find(({ column }) => column === 'dev_nut_backed_off')).toMatchObject({ yes: 1, no: 1 });
  expect([firstYear, lastYear]).toEqual([2020, 2022]);
  // Four wheel ends over 300,000 miles.
  expect(await recordTotals(engine)).toEqual({ lives: 6, vehicles: 1, miles: 1_200_000 });
});

test.each([
  ['tidy', 'demo-fleet'],
  ['messy', 'demo-exports'],
] as const)('every file of the %s demo fleet is shipped, and its truth is not', (which, folder) => {
  const files = readdirSync(new URL(`../../data/${folder}`, import.meta.url));
  const records = files.filter((name) => !/^truth|^README/.test(name));
  expect(demoFiles[which].map(({ name }) => name).sort()).toEqual(records.sort());
  for (const { name, url } of demoFiles[which]) expect(url.pathname.endsWith(`/data/${folder}/${name}`)).toBe(true);
});

test('progress is told seldom, the first time at once', () => {
  const told: number[] = [];
  const say = seldom((value: number) => told.push(value), 10_000);
  for (const value of [1, 2, 3]) say(value);
  expect(told).toEqual([1]);
});
