import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine, ResultTable } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import { livesFromRecords, proceduresOf, type LivesSource } from '../../lib/lives/index.ts';
import { queryCatalogue } from '../../lib/questions/catalogue.ts';
import { ask } from '../../lib/questions/index.ts';
import { readRecords } from '../../lib/records/index.ts';
import { demoFiles } from '../../data/demo/demo-files.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import { questionIds, type Finding } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';

// One small invented fleet, read and rebuilt on the native engine and on the browser's, and asked everything.
const views: readonly Partial<View>[] = [
  {},
  { by: ['role'] },
  { by: ['dev_nut_backed_off'] },
  { by: ['shop', 'lubricant'], where: { role: ['trailer', 'drive'] } },
  { by: ['position'], installedFrom: '2020-01-01' },
  { component: 'gasket' },
  { component: 'bearing', by: ['axle'] },
  { mode: 'seal-inner' },
];

/** Those whose findings are compared whole: nothing cut, a deviation, two columns with a filter, another component. */
const asked = [0, 2, 3, 6].map((place) => views[place] ?? {});

const engines: Record<string, Engine> = {};
const sources: Record<string, LivesSource> = {};

async function rebuilt(engine: Engine): Promise<LivesSource> {
  const files = demoFiles(generateDemoFleet({ units: 40, seed: 5 })).filter(({ name }) =>
    /csv$|^record-set/.test(name),
  );
  const encoded = files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
  const report = await readRecords(
    engine,
    encoded.map(({ name, bytes }) => ({ name, size: bytes.length, stream: () => new Blob([bytes]).stream() })),
  );
  const source = await livesFromRecords(engine, report, proceduresOf(report));
  for (const component of ['seal', 'gasket', 'bearing'] as const) await source.ensure(component);
  return source;
}

beforeAll(async () => {
  engines['native'] = await openNodeEngine();
  engines['wasm'] = await openWasmEngine();
  for (const [name, engine] of Object.entries(engines)) sources[name] = await rebuilt(engine);
}, 120_000);
afterAll(async () => {
  for (const engine of Object.values(engines)) await engine.close();
});

const engine = (name: 'native' | 'wasm') => engines[name] as Engine;
const source = (name: 'native' | 'wasm') => sources[name] as LivesSource;

/** A result as rows in an order of their own: the order of a join is no promise. */
const rows = ({ rows: count, columns }: ResultTable) =>
  Array.from({ length: count }, (_, row) =>
    JSON.stringify(Object.entries(columns).map(([name, column]) => [name, column[row]])),
  ).sort();

describe.each(questionIds)('%s', (question) => {
  test.each(views.map((view) => [JSON.stringify(view), view] as const))(
    '%s: both engines explain and run every statement alike',
    async (_name, view) => {
      for (const [purpose, statement] of Object.entries(queryCatalogue(question, viewSchema.parse(view), true))) {
        const explained = { ...statement, text: `explain ${statement.text}` };
        expect((await engine('native').query(explained)).rows, purpose).toBeGreaterThan(0);
        expect((await engine('wasm').query(explained)).rows, purpose).toBeGreaterThan(0);
        const [native, wasm] = [await engine('native').query(statement), await engine('wasm').query(statement)];
        expect(rows(wasm), purpose).toEqual(rows(native));
      }
    },
  );

  test.each(asked.map((view) => [JSON.stringify(view), view] as const))(
    '%s: both engines give one finding',
    async (_name, view) => {
      const whole = viewSchema.parse(view);
      const findings = [await ask(source('native'), question, whole), await ask(source('wasm'), question, whole)];
      const [native, wasm] = findings.map(rounded);
      expect(wasm).toEqual(native);
      expect(findings[0]?.groups.length).toBeGreaterThan(0);
    },
  );
});

/** Numbers to nine digits: sums over vehicles may run in another order. */
const rounded = (finding: Finding): unknown =>
  JSON.parse(JSON.stringify(finding), (_key, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(9)) : value,
  );

test('the lives of the rebuilt fleet are the denominators: every life is in a group', async () => {
  const finding = await ask(source('native'), 'mean-miles', viewSchema.parse({ by: ['role'] }));
  const counted = await engine('native').query({
    text: 'select cast(count(*) as double) as lives, sum(exposure_miles) as miles from lives_seal',
    values: [],
  });
  expect(finding.data.lives).toBe(counted.columns['lives']?.[0]);
  expect(finding.data.miles).toBeCloseTo(Number(counted.columns['miles']?.[0]), 3);
});

test('renewal is set beside the interval that the procedure names for the build and the role, and for no other', async () => {
  const asked = (build: string) => viewSchema.parse({ where: { hub_build: [build] } });
  const [spacer, adjusted] = [
    await ask(source('native'), 'renewal', asked('spacer')),
    await ask(source('native'), 'renewal', asked('adjusted')),
  ];
  // The default procedure: 500,000 miles for hubs preset by spacer, none for those adjusted by hand.
  expect(spacer.groups[0]?.counts).toMatchObject({
    procedureIntervalMiles: 500_000,
    procedureLives: spacer.groups[0]?.lives,
  });
  expect(adjusted.groups[0]?.counts).not.toHaveProperty('procedureIntervalMiles');
  expect(adjusted.groups[0]?.estimates['costAtProcedureInterval']?.reason).toBe(
    'the procedure names no interval for these',
  );
});
