import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine, ResultTable } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { openWasmEngine } from '../../../lib/engine/wasm-node.ts';
import { livesFromRecords, proceduresOf, type LivesSource } from '../../../lib/lives/index.ts';
import { narrowing } from '../../../lib/questions/record-quality/narrowing.ts';
import { recordQuality, recordQualityCatalogue } from '../../../lib/questions/record-quality/index.ts';
import { reasonsStatement, tableUse, tableUseStatement } from '../../../lib/questions/record-quality/table-use.ts';
import { readRecords } from '../../../lib/records/index.ts';
import type { ColumnMap } from '../../../shared/column-map.ts';
import type { RecordQuality } from '../../../shared/record-quality.ts';

// A fleet small enough to count by eye: two tractors of one steer axle, two shops, every number below worked by hand.
const files: Readonly<Record<string, string>> = {
  'units.csv': `unit_id,axle_roles,acquired,in_service_date,in_service_miles,home_shop
1,steer,new,2020-01-01,0,Ambleford
2,steer,new,2020-01-01,0,Brackwell
3,steer,new,2020-01-01,,Brackwell
4,steer,new,,,Brackwell`,
  'readings.csv': `unit_id,date,miles
1,2020-01-01,0
1,2021-01-01,100000
2,2020-01-01,0
2,2021-01-01,100000
2,soon,100000`,
  'services.csv': `service_id,unit_id,axle,side,date,miles,shop,reason,replaced,hub_build,lubricant,nut_system,step_spacer_fitted,end_play_in
s1,1,1,left,2020-03-01,16000,Ambleford,planned,seal,spacer,oil,double,done,
s2,1,1,left,2020-06-01,41000,Ambleford,failure,seal,spacer,oil,double,,
s3,2,1,left,2020-03-01,16000,Brackwell,planned,seal,adjusted,oil,double,,0.003
s4,2,1,left,2020-03-03,16500,Brackwell,planned,hubcap,adjusted,,,,
s5,2,1,left,2020-03-05,17000,Brackwell,comeback,seal,adjusted,oil,double,,
s6,9,1,left,2020-03-05,17000,Brackwell,planned,seal,adjusted,oil,double,,`,
  'inspections.csv': `inspection_id,unit_id,axle,side,date,checked,leak
i1,1,1,left,2020-05-20,yes,2
i2,2,1,right,2020-05-20,yes,2
i3,2,1,right,2020-06-20,yes,1
i4,2,1,left,2020-06-20,no,`,
  'failures.csv': `failure_id,unit_id,axle,side,date,miles,mode,lining_contaminated,repair_service_id
f1,1,1,left,2020-05-30,40900,seal-inner,yes,s2
f2,1,1,right,2020-07-01,50000,seal-inner,,s9
f3,8,1,right,2020-07-01,50000,seal-inner,no,`,
};

const engines: Engine[] = [];
const told: RecordQuality[] = [];

async function opened(engine: Engine): Promise<LivesSource> {
  const sources = Object.entries(files).map(([name, text]) => ({
    name,
    size: text.length,
    stream: () => new Blob([text]).stream(),
  }));
  const report = await readRecords(engine, sources);
  return livesFromRecords(engine, report, proceduresOf(report));
}

beforeAll(async () => {
  engines.push(await openNodeEngine(), await openWasmEngine());
  for (const engine of engines) told.push(await recordQuality(await opened(engine)));
}, 120_000);
afterAll(() => Promise.all(engines.map((engine) => engine.close())));

const quality = () => told[0] as RecordQuality;
const field = (column: string) => quality().fields.find((one) => one.column === column);
const link = (name: RegExp) => quality().links.find((one) => name.test(one.name));

describe('whether the records can be trusted', () => {
  test('both engines tell the same', () => expect(told[1]).toEqual(told[0]));

  test.each(Object.keys(recordQualityCatalogue))('the engine explains: %s', async (name) => {
    const { text, values } = recordQualityCatalogue[name] as { text: string; values: (string | number | null)[] };
    await expect((engines[0] as Engine).query({ text: `explain ${text}`, values })).resolves.toBeDefined();
  });

  test('rows of a file that feeds two tables are counted with the table they were for', async () => {
    const part = (header: string, words?: Record<string, string>) => ({ header, ...(words ? { words } : {}) });
    const own = ['unit_id', 'date', 'miles'].map((ours) => ({ ours, from: [part(ours)] }));
    const position = { ours: 'position', from: [part('axle')] };
    const map: ColumnMap = {
      ...{
        version: 1,
        source: 'mixed',
        recognised: { headers: ['kind', 'id', 'unit_id', 'axle', 'date', 'miles', 'mode'] },
      },
      feeds: { by: 'kind', words: { s: 'services', f: 'failures' }, others: 'set-aside' },
      tables: {
        services: [{ ours: 'service_id', from: [part('id')] }, ...own, position],
        failures: [
          { ours: 'failure_id', from: [part('id')] },
          ...own,
          position,
          { ours: 'mode', from: [part('mode')] },
        ],
      },
      ...{ dates: {}, numbers: { decimal: 'point' } },
    };
    const text = `kind,id,unit_id,axle,date,miles,mode
s,a,1,LF,2020-03-01,16000,
s,b,1,LF,soon,16000,
f,c,1,LF,2020-03-01,16000,seal-inner
f,d,1,LF,2020-03-01,far,seal-inner
f,e,1,LF,later,16000,seal-inner`;
    const units = 'unit_id,axle_roles\n1,steer drive';
    const engine = engines[0] as Engine;
    await readRecords(
      engine,
      Object.entries({ 'mixed.csv': text, 'units.csv': units }).map(([name, content]) => ({
        ...{ name, size: content.length, stream: () => new Blob([content]).stream() },
      })),
      { maps: [map] },
    );
    const found = tableUse(await engine.query(tableUseStatement), await engine.query(reasonsStatement));
    const sums = found.map(({ table, read, kept, setAside, reasons }) => [
      ...[table, read, kept, setAside],
      reasons.reduce((sum, { rows }) => sum + rows, 0),
    ]);
    expect(sums).toEqual([
      ['units', 1, 1, 0, 0],
      ['services', 2, 1, 1, 1],
      ['failures', 3, 1, 2, 2],
    ]);
  });

  test('rows are accounted for by table, with the reasons', () => {
    expect(quality().tables.map(({ table, read, kept, setAside }) => [table, read, kept, setAside])).toEqual([
      ['units', 4, 4, 0],
      ['readings', 5, 4, 1],
      ['services', 6, 6, 0],
      ['inspections', 4, 4, 0],
      ['failures', 3, 3, 0],
    ]);
    expect(quality().tables[1]?.reasons).toEqual([{ reason: 'not a day written YYYY-MM-DD', rows: 1 }]);
  });

  test('a field counts only where it can exist', () => {
    // Spacer hubs: s1, s2. Adjusted hubs: s3 to s6. Double nuts or nobody knows: all.
    expect(field('step_spacer_fitted')).toMatchObject({ rows: 2, filled: 1 });
    expect(field('end_play_in')).toMatchObject({ rows: 4, filled: 1 });
    expect(field('lubricant')).toMatchObject({ rows: 6, filled: 5 });
    expect(quality().shops).toEqual(['Ambleford', 'Brackwell', '(no shop)']);
    expect(field('lubricant')?.shops).toEqual([
      { rows: 2, filled: 2 },
      { rows: 4, filled: 3 },
      { rows: 0, filled: 0 },
    ]);
  });

  test('rows that meet nothing are counted and named', () => {
    expect(link(/^failures that met no life/)).toMatchObject({ rows: 1, of: 3, examples: ['f3'] });
    expect(link(/^services of units/)).toMatchObject({ rows: 1, of: 6, examples: ['s6'] });
    expect(link(/^inspections of units/)).toMatchObject({ rows: 0, of: 4 });
    // i1 saw the leak that f1 tells of ten days later; i2 saw one that nobody wrote down.
    expect(link(/^leaks of 2/)).toMatchObject({ rows: 1, of: 2, examples: ['i2'] });
    expect(link(/^services with reason failure/)).toMatchObject({ rows: 1, of: 2, examples: ['s5'] });
    expect(link(/^failures naming a repair/)).toMatchObject({ rows: 1, of: 2, examples: ['f2'] });
    expect(link(/^units whose miles/)).toMatchObject({ rows: 2, of: 4, examples: ['3', '4'] });
  });

  test('checks are told against the miles run', () => {
    const oil = quality().intensity.find(({ by, value }) => by === 'lubricant' && value === 'oil');
    // Lives with oil: unit 1 left from 16,000 to 40,900 and from 41,000 on, with one check; unit 2 left, none.
    expect(oil?.checks).toBe(1);
  });

  test('silence is a pause far beyond the usual one', () => {
    // Ambleford pauses once, for 92 days, which is its usual; both shops then fall silent until 1 July.
    expect(quality().silent.map(({ shop, from, to, days }) => [shop, from, to, days])).toEqual([
      ['Brackwell', '2020-03-05', '2020-07-01', 118],
    ]);
  });

  test('fields blank on most jobs are one weakness, each named as it is spoken of', () => {
    const blank = quality().effects.filter(({ weakness }) => weakness.startsWith('Blank on more than half'));
    expect(blank).toHaveLength(1);
    // Of the four jobs on hand-adjusted hubs one has its end play; of those on spacers one of two has its step.
    expect(blank[0]?.weakness).toMatch(/end play 75.%/);
    expect(blank[0]?.weakness).not.toMatch(/_|spacer fitted/);
  });

  test('every weakness says what it does to which answer', () => {
    expect(quality().effects.length).toBeGreaterThan(4);
    for (const { effect, questions } of quality().effects) {
      expect(effect).not.toBe('');
      expect(questions.length).toBeGreaterThan(0);
    }
  });
});

describe('what a blank field costs', () => {
  // A result in which every count is 0 but for those given.
  const counts = (given: Readonly<Record<string, number>>): ResultTable => ({
    rows: 1,
    columns: new Proxy({}, { get: (_, name: string) => Float64Array.of(given[name] ?? 0) }),
  });

  test('four times the failures halve the interval of a log ratio', () => {
    const [first, ...rest] = narrowing(
      counts({ 'seal-cocked yes': 8, 'seal-cocked no': 8, 'seal-cocked unknown': 48, failures: 64 }),
    );
    // √(1/8 + 1/8) = 1/2 now, √(1/32 + 1/32) = 1/4 with all 64 known.
    expect(first).toMatchObject({ field: 'step_seal_seated', known: 16, unknown: 48 });
    expect(first?.now).toBeCloseTo(Math.exp(1.959963984540054), 12);
    expect(first?.then).toBeCloseTo(Math.exp(1.959963984540054 / 2), 12);
    expect(first?.narrower).toBeCloseTo(0.5, 12);
    expect(rest).toEqual([]);
  });

  test('nothing is promised where a side is empty or nothing is blank', () => {
    expect(narrowing(counts({ 'seal-cocked yes': 1, 'seal-cocked no': 8, 'seal-cocked unknown': 48 }))).toEqual([]);
    expect(narrowing(counts({ 'seal-cocked yes': 9, 'seal-cocked no': 8 }))).toEqual([]);
  });
});
