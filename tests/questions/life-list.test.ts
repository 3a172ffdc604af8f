// The lives listed are those a finding counted: one number, two ways to it.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demoFiles } from '../../data/demo/demo-files.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import { textColumn, numberColumn, type Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import { sql } from '../../lib/engine/statement.ts';
import { livesFromRecords, pageColumnsStatement, proceduresOf, type LivesSource } from '../../lib/lives/index.ts';
import { ask, listedLives, listLives } from '../../lib/questions/index.ts';
import { readRecords } from '../../lib/records/index.ts';
import { livesAtRisk, livesBehind, type Counted, type LivesBehind } from '../../lib/view/index.ts';
import { questionIds, type Finding, type Group } from '../../shared/finding.ts';
import { listColumns, wholePick, type LivesPick } from '../../shared/lives-pick.ts';
import { lifeStates } from '../../shared/vocabulary.ts';
import { viewSchema, type View } from '../../shared/view.ts';

let engine: Engine;
let source: LivesSource;

async function rebuilt(into: Engine): Promise<LivesSource> {
  const files = demoFiles(generateDemoFleet({ units: 60, seed: 7 })).filter(({ name }) =>
    /csv$|^record-set/.test(name),
  );
  const encoded = files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
  const report = await readRecords(
    into,
    encoded.map(({ name, bytes }) => ({ name, size: bytes.length, stream: () => new Blob([bytes]).stream() })),
  );
  return livesFromRecords(into, report, proceduresOf(report));
}

beforeAll(async () => {
  engine = await openNodeEngine();
  source = await rebuilt(engine);
}, 120_000);
afterAll(() => engine.close());

const views: readonly Partial<View>[] = [
  {},
  { by: ['role'] },
  { by: ['dev_nut_backed_off'] },
  { by: ['dev_gasket_reused', 'lubricant'] },
  { by: ['shop', 'lubricant'], where: { role: ['trailer', 'drive'], lubricant: ['oil', 'unknown'] } },
  { by: ['position'], installedFrom: '2020-06-01', installedTo: '2023-12-31' },
  { by: ['install_year'], component: 'gasket' },
  { by: ['role'], component: 'bearing', where: { install_kind: ['replacement', 'original'] } },
  { by: ['hub_build'], mode: 'seal-inner' },
  { by: ['unit_id'] },
];
// Of a question about more than one reading of the lives no list comes to the counts.
const unlisted: readonly string[] = ['detection', 'rules', 'dose', 'repeats', 'after-change', 'savings', 'ahead'];
/** Of a ranking the counts are made alike whatever it is cut by: two cuts of it, with another component, tell. */
const viewsOf = (question: string) => (question === 'causes' ? [0, 3, 7].map((place) => views[place] ?? {}) : views);
const cases = questionIds
  .filter((question) => !unlisted.includes(question))
  .flatMap((question) =>
    viewsOf(question).map((view) => [`${question} ${JSON.stringify(view)}`, question, viewSchema.parse(view)] as const),
  );
const names: readonly Counted[] = [
  ...['lives', 'failures', 'contaminated', 'leaksSoaked', 'leaksClean', 'leaksUnknown', 'vehicles'],
] as Counted[];

const countIn = (group: Group, name: Counted): number | undefined =>
  name === 'lives' ? group.lives : name === 'failures' ? group.failures : group.counts[name];

async function listed({ view, pick }: LivesBehind, counted: Counted): Promise<number> {
  const { counted: found } = await listLives(source, view, pick);
  if (counted === 'vehicles') return found.vehicles;
  return found.episodes ?? found.lives;
}

async function everyCount(finding: Finding): Promise<number> {
  let seen = 0;
  for (const group of finding.groups.slice(0, 12))
    for (const name of names) {
      const count = countIn(group, name);
      const behind = count === undefined || count === 0 ? null : livesBehind(finding, group, name);
      if (behind === null) continue;
      expect([group.label, name, await listed(behind, name)]).toEqual([group.label, name, count]);
      seen++;
    }
  return seen;
}

describe('the counts of a finding', () => {
  test.each(cases)('%s: every count opens to as many lives', async (_name, question, view) => {
    const finding = await ask(source, question, view);
    expect(await everyCount(finding)).toBeGreaterThan(0);
    for (const name of ['lives', 'failures'] as const) {
      const behind = livesBehind(finding, null, name) as LivesBehind;
      expect([name, await listed(behind, name)]).toEqual([name, finding.data[name]]);
    }
  });

  test('numbers at risk under a curve open to the lives at risk there', async () => {
    const finding = await ask(source, 'seal-life', viewSchema.parse({ by: ['role'] }));
    let seen = 0;
    for (const { name, group, columns } of finding.series) {
      if (name !== 'at-risk') continue;
      const of = finding.groups.find(({ label }) => label === group) as Group;
      for (const [place, miles] of (columns['miles'] ?? []).entries()) {
        const behind = livesAtRisk(finding, of, miles as number) as LivesBehind;
        expect([group, miles, await listed(behind, 'lives')]).toEqual([group, miles, columns['atRisk']?.[place]]);
        seen++;
      }
    }
    expect(seen).toBeGreaterThan(10);
  });
});

describe('the list', () => {
  const list = (pick: Partial<LivesPick>, view: Partial<View> = {}) =>
    listLives(source, viewSchema.parse(view), { ...wholePick, ...pick });

  test('shows every life once, by the ids, states and miles of the lives table', async () => {
    const all = await list({});
    const lines = listedLives(all, 0, all.rows.length);
    const result = await engine.query(
      sql`select life_id, state, exit_miles, cast(install_date as varchar) as day from lives_seal order by rowid`,
    );
    expect(lines.map(({ lifeId }) => lifeId)).toEqual(textColumn(result, 'life_id'));
    expect(lines.map(({ state }) => state)).toEqual(textColumn(result, 'state'));
    expect(lines.map(({ installDate }) => installDate)).toEqual(textColumn(result, 'day'));
    expect(lines.map(({ exitMiles }) => exitMiles ?? Number.NaN)).toEqual([...numberColumn(result, 'exit_miles')]);
    expect(all.counted.states.reduce((sum, count) => sum + count, 0)).toBe(all.counted.lives);
    expect(new Set(lines.map(({ unitId }) => unitId)).size).toBe(all.counted.vehicles);
  });

  test.each(listColumns)(
    'ordered by %s either way, it holds the same lives and what is not known comes last',
    async (order) => {
      const [up, down] = [await list({ order }), await list({ order, down: true })];
      expect([...up.rows].sort((a, b) => a - b)).toEqual([...(await list({})).rows]);
      expect([...down.rows].sort((a, b) => a - b)).toEqual([...up.rows].sort((a, b) => a - b));
      const field = { unit_id: 'unitId', position: 'position', life_number: 'lifeNumber', install_date: 'installDate' };
      const rest = { install_miles: 'installMiles', exit_miles: 'exitMiles', exposure_miles: 'exposureMiles' };
      const last = { state: 'state', shop: 'shop', lubricant: 'lubricant', hub_build: 'hubBuild' };
      const key = { ...field, ...rest, ...last }[order] as 'unitId';
      const values = (rows: typeof up) =>
        listedLives(rows, 0, rows.rows.length).map((line): string | number | null => line[key]);
      const unknown = (value: string | number | null) => value === null || value === 'unknown';
      const compare = (a: string | number, b: string | number) =>
        order === 'state'
          ? lifeStates.indexOf(a as 'failed') - lifeStates.indexOf(b as 'failed')
          : typeof a === 'number'
            ? a - Number(b)
            : a.localeCompare(String(b), 'en', { numeric: true });
      for (const [rows, sign] of [
        [up, 1],
        [down, -1],
      ] as const) {
        const found = values(rows);
        const known = found.filter((value) => !unknown(value)) as (string | number)[];
        expect(found.slice(known.length).every(unknown)).toBe(true);
        expect(known).toEqual([...known].sort((a, b) => sign * compare(a, b)));
      }
    },
  );

  test('is narrowed by how lives ended and by part of a vehicle number', async () => {
    const failed = await list({ ended: ['failed', 'planned'] });
    const result = await engine.query(
      sql`select cast(count(*) as double) as n from lives_seal where state in ('failed', 'planned')`,
    );
    expect(failed.counted.lives).toBe(numberColumn(result, 'n')[0]);
    const [one] = listedLives(failed, 0, 1);
    const unit = one?.unitId ?? '';
    const found = await list({ vehicle: ` ${unit.slice(1).toLowerCase()} ` });
    expect(found.counted.lives).toBeGreaterThan(0);
    for (const { unitId } of listedLives(found, 0, found.rows.length))
      expect(unitId.toLowerCase()).toContain(unit.slice(1).toLowerCase());
  });
});

test('both engines explain its statement, and give one answer', async () => {
  const wasm = await openWasmEngine();
  try {
    const other = await rebuilt(wasm);
    const pick: LivesPick = { ...wholePick, order: 'exit_miles', down: true };
    const [native, browser] = [
      await listLives(source, viewSchema.parse({}), pick),
      await listLives(other, viewSchema.parse({}), pick),
    ];
    expect(listedLives(browser, 0, 500)).toEqual(listedLives(native, 0, 500));
    for (const each of [engine, wasm]) {
      const { text, values } = pageColumnsStatement('lives_seal');
      expect((await each.query({ text: `explain ${text}`, values })).rows).toBeGreaterThan(0);
    }
  } finally {
    await wasm.close();
  }
}, 120_000);
