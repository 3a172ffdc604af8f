import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { livesFromRecords, proceduresOf } from '../../lib/lives/index.ts';
import { ask } from '../../lib/questions/index.ts';
import { readRecords, type RecordSource } from '../../lib/records/index.ts';
import { viewSchema } from '../../shared/view.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const file = (name: string, ...lines: string[]): RecordSource => {
  const bytes = new TextEncoder().encode(`${lines.join('\n')}\n`);
  return { name, size: bytes.length, stream: () => new Blob([bytes]).stream() };
};

/** Twelve one-axle units, new at 0 and out at 60,000 miles: 24 seals that all ran through. */
const units = Array.from({ length: 12 }, (_, unit) => `u${unit},steer,new,2020-01-01,0,2021-08-23,60000`);
const records = (...inspections: string[]) => [
  file('units.csv', 'unit_id,axle_roles,acquired,in_service_date,in_service_miles,out_date,out_miles', ...units),
  file('inspections.csv', 'inspection_id,unit_id,axle,side,date,miles,checked,leak,leak_at', ...inspections),
  file('record-set.json', '{"observedFrom":"2020-01-01","observedTo":"2021-12-31"}'),
];

async function doubt(component: 'seal' | 'gasket', ...inspections: string[]) {
  const report = await readRecords(engine, records(...inspections));
  const source = await livesFromRecords(engine, report, proceduresOf(report));
  const { doubts } = await ask(source, 'seal-life', viewSchema.parse({ component, horizonMiles: 50_000 }));
  return doubts.find(({ name }) => name === 'Leaks seen, no failure written down') ?? null;
}

test('a wet seal that no failure row tells of fails no life and is bounded: 1 of 24', async () => {
  expect(
    await doubt('seal', 'i1,u3,1,left,2020-10-27,30000,yes,2,inboard', 'i2,u3,1,left,2021-02-04,40000,yes,3,'),
  ).toEqual({
    name: 'Leaks seen, no failure written down',
    state: 'holds',
    detail:
      'Inspections saw 1 seal leaking that no failure row tells of; had all of them failed then, 4.2\u00a0% instead of 0\u00a0% would have failed by 50,000 miles.',
    settledBy: 'what was done about those inspection findings',
  });
});

test('damp, unchecked, or leaking elsewhere is no seal leak', async () => {
  const rows = [
    'i1,u3,1,left,2020-10-27,30000,yes,1,inboard',
    'i2,u4,1,left,2020-10-27,30000,no,3,inboard',
    'i3,u5,1,left,2020-10-27,30000,yes,3,hubcap',
  ];
  expect(await doubt('seal', ...rows)).toBeNull();
  expect((await doubt('gasket', ...rows))?.detail).toContain('Inspections saw 1 gasket leaking');
});
