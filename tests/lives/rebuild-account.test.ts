// What a rebuild took for true, worked by hand from the record contract (sections 2 and 5.6) on both engines.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import { mileageRepairList, rebuildAccount } from '../../lib/lives/index.ts';
import { choicesSchema } from '../../shared/choices.ts';
import { commonPractice, rebuild, type Fleet } from './record-tables-in-engine.ts';

const unit = (unit_id: string, home_shop: string) => ({
  ...{ unit_id, home_shop, axle_roles: 'trailer', acquired: 'new', in_service_date: '2020-01-01', in_service_miles: 0 },
});
const seal = (service_id: string, unit_id: string, date: string, miles: number | null) => ({
  ...{ service_id, unit_id, axle: 1, side: 'left', date, miles, replaced: 'seal', reason: 'planned' },
});

/** Two trailers of one axle; 100 miles a day, so that the blank of 2020-04-10 (day 100) stands at 10,000. */
const fleet: Fleet = {
  units: [unit('A', 'North'), unit('B', 'South')],
  readings: [
    { unit_id: 'A', date: '2020-07-19', miles: 20_000 },
    { unit_id: 'B', date: '2020-07-19', miles: 20_000 },
  ],
  services: [seal('s1', 'A', '2020-04-10', null), seal('s2', 'B', '2020-04-10', 10_000)],
  inspections: [
    {
      inspection_id: 'i1',
      unit_id: 'A',
      axle: 1,
      side: 'left',
      date: '2020-07-19',
      miles: 20_000,
      checked: 'yes',
      leak: 0,
    },
    {
      inspection_id: 'i2',
      unit_id: 'B',
      axle: 1,
      side: 'left',
      date: '2020-03-01',
      miles: 6_000,
      checked: 'yes',
      leak: 0,
    },
  ],
};

let engines: readonly Engine[] = [];
beforeAll(async () => {
  engines = await Promise.all([openNodeEngine(), openWasmEngine()]);
});
afterAll(() => Promise.all(engines.map((engine) => engine.close())));

const account = async (engine: Engine, choices: unknown = {}) => {
  const chosen = choicesSchema.parse(choices);
  await (await rebuild(engine, fleet, {}, [commonPractice], chosen)).ensure('seal');
  return rebuildAccount(engine);
};

describe('the account of a rebuild', () => {
  it('counts lives, miles, what each shop recorded and when', async () => {
    for (const engine of engines) {
      const found = await account(engine);
      // Watched 2020-03-01 (6,000 mi) to 2020-07-19 (20,000 mi): 14,000 miles on each of four wheel ends; the
      // seals renewed on the left make two lives of one, the original ones were running when watching began.
      expect(found).toMatchObject({ lives: 6, failures: 0, miles: 56_000, lateEntries: 4, unknownStarts: 0 });
      expect([found.observedFrom, found.observedTo]).toEqual(['2020-03-01', '2020-07-19']);
      expect(found.shops).toEqual([
        { shop: 'North', units: 1, events: 2, firstDay: '2020-04-10', lastDay: '2020-07-19' },
        { shop: 'South', units: 1, events: 2, firstDay: '2020-03-01', lastDay: '2020-04-10' },
      ]);
      expect(found.repairs.filter(({ rows }) => rows > 0)).toEqual([{ rule: 'interpolated', rows: 1, units: 1 }]);
      expect(await mileageRepairList(engine, 0, 10)).toEqual([
        {
          ...{ unitId: 'A', table: 'services', fileId: 1, line: 2, day: '2020-04-10', rule: 'interpolated' },
          ...{ written: null, used: 10_000, acceptedFrom: null, acceptedTo: null },
        },
      ]);
      expect(await mileageRepairList(engine, 1, null)).toEqual([]);
    }
  });

  it('follows the window said for all records, and that of one shop', async () => {
    for (const engine of engines) {
      // From 2020-05-20 (day 140, 14,000 mi): 6,000 miles on each wheel end, and the renewals lie before it.
      const late = await account(engine, { window: { from: '2020-05-20' } });
      expect(late).toMatchObject({ lives: 4, miles: 24_000, lateEntries: 4, observedFrom: '2020-05-20' });
      const north = await account(engine, { windows: [{ shop: 'North', from: '2020-05-20' }] });
      expect(north).toMatchObject({ lives: 5, miles: 12_000 + 28_000, observedFrom: '2020-03-01' });
    }
  });

  it('refuses a window that ends before it begins', () => {
    expect(choicesSchema.safeParse({ window: { from: '2020-02-02', to: '2020-02-01' } }).success).toBe(false);
  });
});
