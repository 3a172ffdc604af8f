// What the pages of lives and of the procedure ask, on the invented fleet, on both engines.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoFiles } from '../../data/demo/demo-files.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import { numberColumn, textColumn, type Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import type { Statement } from '../../lib/engine/statement.ts';
import {
  conflicts,
  judgedLives,
  judgementsChanged,
  livesFromRecords,
  openLife,
  proceduresOf,
  unitHistory,
} from '../../lib/lives/index.ts';
import * as facts from '../../lib/lives/life-pages-facts.ts';
import * as history from '../../lib/lives/life-pages-history.ts';
import * as judged from '../../lib/lives/life-pages-judged.ts';
import { conflictsStatement } from '../../lib/lives/life-pages-conflicts.ts';
import { cellsStatement, filesStatement, sourceRowsStatement } from '../../lib/lives/life-pages-sources.ts';
import { readRecords } from '../../lib/records/index.ts';
import { deviationCodes } from '../../shared/deviations.ts';
import { tableNames } from '../../shared/record-tables.ts';
import type { Procedure } from '../../shared/procedure.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import { commonPractice } from './record-tables-in-engine.ts';

const engines: Record<string, Engine> = {};
let report: ReadReport;
const texts = new Map<string, string[]>();
const miles = (value: number) => `${Math.round(value)} mi`;
const names = Object.keys(components) as Component[];

async function rebuilt(engine: Engine): Promise<ReadReport> {
  const files = demoFiles(generateDemoFleet({ units: 60, seed: 11 })).filter(({ name }) =>
    /csv$|^record-set/.test(name),
  );
  for (const { name, text } of files) texts.set(name, text.split(/\r?\n/));
  const encoded = files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
  const read = await readRecords(
    engine,
    encoded.map(({ name, bytes }) => ({ name, size: bytes.length, stream: () => new Blob([bytes]).stream() })),
  );
  const source = await livesFromRecords(engine, read, proceduresOf(read));
  for (const component of names) await source.ensure(component);
  return read;
}

beforeAll(async () => {
  engines['native'] = await openNodeEngine();
  engines['wasm'] = await openWasmEngine();
  for (const engine of Object.values(engines)) report = await rebuilt(engine);
}, 240_000);
afterAll(async () => {
  for (const engine of Object.values(engines)) await engine.close();
});

const native = () => engines['native'] as Engine;
const wasm = () => engines['wasm'] as Engine;

/** Lives of every state, a few of each. */
async function someLives(component: Component): Promise<string[]> {
  const result = await native().query({
    text: `select life_id from (select life_id, row_number() over (partition by state, inferred, mileage_quality order by hash(life_id)) as nth from lives_${component}) where nth = 1 order by life_id`,
    values: [],
  });
  return textColumn(result, 'life_id').map(String);
}

describe('a life opened', () => {
  it.each(names)('gives the same on both engines, down to the rows it names (%s)', async (component) => {
    const ids = await someLives(component);
    expect(ids.length).toBeGreaterThan(5);
    for (const id of ids) {
      const life = await openLife(native(), component, id, miles);
      expect(await openLife(wasm(), component, id, miles)).toEqual(life);
      if (life === null) throw new Error(`${id} does not open`);
      const { facts, rows } = life;
      const rowIds = rows.map((row) => row.id);
      const named = [facts.startServiceId, facts.failure?.failureId, facts.next?.serviceId, facts.unitId];
      for (const name of named) if (name != null) expect(rowIds).toContain(name);
      expect(rows.filter(({ part }) => part === 'failed').map((row) => row.id)).toEqual(
        facts.failure === null ? [] : [facts.failure.failureId],
      );
      expect(new Set(rows.map(({ table, fileId, line }) => `${table} ${fileId} ${line}`)).size).toBe(rows.length);
    }
  });

  it('names the line of the file on which each row stands, and its cells', async () => {
    for (const id of (await someLives('seal')).slice(0, 6)) {
      const life = await openLife(native(), 'seal', id, miles);
      for (const { file, line, id: rowId, cells, table } of life?.rows ?? []) {
        const written = texts.get(file)?.[line - 1] ?? '';
        if (table !== 'readings') expect(written.split(',')).toContain(rowId);
        for (const [column, value] of cells) if (/_id$|date|reason|mode/.test(column)) expect(written).toContain(value);
      }
    }
  });

  it('names the readings that its miles were made from', async () => {
    const result = await native().query({
      text: `select life_id from lives_seal where mileage_quality = 'interpolated' and start_service_id is not null order by life_id limit 5`,
      values: [],
    });
    for (const id of textColumn(result, 'life_id')) {
      const life = await openLife(native(), 'seal', String(id), miles);
      expect(life?.rows.some(({ part }) => part === 'miles')).toBe(true);
    }
  });

  it('does not open where there is none', async () => {
    expect(await openLife(native(), 'seal', 'nothing', miles)).toBeNull();
  });
});

describe('the history of a vehicle', () => {
  it('holds every life, every wait and every event of its wheel ends, without overlap', async () => {
    const units = await native().query({
      text: `select unit_id, cast(count(*) as double) as n from lives_seal group by 1 order by 2 desc, 1 limit 5`,
      values: [],
    });
    for (const [row, unit] of textColumn(units, 'unit_id').entries()) {
      const ends = await unitHistory(native(), 'seal', String(unit));
      expect(await unitHistory(wasm(), 'seal', String(unit))).toEqual(ends);
      expect(ends.flatMap(({ lives }) => lives)).toHaveLength(numberColumn(units, 'n')[row] as number);
      for (const { lives, waits, watchedFrom, watchedTo } of ends) {
        const stretches = [...lives, ...waits].sort((a, b) => a.fromMiles - b.fromMiles);
        stretches.forEach((stretch, place) => {
          const after = stretches[place + 1];
          if (after) expect(stretch.toMiles).toBeLessThanOrEqual(after.fromMiles + 1e-6);
          expect(stretch.fromMiles).toBeGreaterThanOrEqual(watchedFrom - 1e-6);
          expect(stretch.toMiles).toBeLessThanOrEqual(watchedTo + 1e-6);
        });
      }
    }
  });
});

/** The default with the limits of one torque moved. */
const withOuterTorque = (minimum: number, maximum: number): Procedure => ({
  ...commonPractice,
  version: '2',
  parts: commonPractice.parts.map((part) => ({
    ...part,
    limits: { ...part.limits, outerTorqueFtLb: { minimum, maximum, source: 'test' } },
  })),
});

const count = async (text: string) =>
  numberColumn(await native().query({ text: `select cast(count(*) as double) as n from ${text}`, values: [] }), 'n')[0];

describe('lives as judged', () => {
  it('counts every judgement once, on both engines alike', async () => {
    const found = await judgedLives(native());
    expect(await judgedLives(wasm())).toEqual(found);
    expect(found.lives).toBe(await count('lives_seal where start_service_id is not null'));
    for (const code of deviationCodes) {
      const {
        yes,
        no,
        unknown,
        'not-applicable': never,
      } = found.counts[code] as NonNullable<(typeof found.counts)[string]>;
      expect(yes + no + unknown + never).toBe(found.lives);
    }
    expect(found.byVersion).toEqual([{ version: 0, lives: found.lives }]);
  });

  it('says what other limits change, and only that', async () => {
    const engine = native();
    const rebuild = async (procedures: readonly Procedure[]) => {
      await (await livesFromRecords(engine, report, procedures)).ensure('seal');
    };
    // No outer torque ever written down lies within 1 and 2 lbf·ft: every life with one and a double nut deviates.
    const { before, after, changed, lives } = await judgementsChanged(engine, () => rebuild([withOuterTorque(1, 2)]));
    const known = await count(
      `lives_seal l join services s on s.service_id = l.start_service_id where s.nut_system = 'double' and s.outer_torque_ftlb is not null and s.hub_build is not null and l.role is not null`,
    );
    expect(after.counts['outer-torque-out']?.yes).toBeGreaterThanOrEqual(known as number);
    expect(after.counts['outer-torque-out']?.yes).toBeGreaterThan(before.counts['outer-torque-out']?.yes ?? 0);
    expect(changed['outer-torque-out']).toBe(lives);
    expect(Object.entries(changed).filter(([code, number]) => number > 0 && code !== 'outer-torque-out')).toEqual([]);
    const back = await judgementsChanged(engine, () => rebuild(proceduresOf(report)));
    expect(back.after).toEqual(before);
    expect(back.lives).toBe(lives);
    const left = await engine.query({
      text: `select 1 from duckdb_tables() where table_name = 'judged_before'`,
      values: [],
    });
    expect(left.rows).toBe(0);
  });

  it('tells lives of two versions apart by the day they were installed', async () => {
    const later = { ...withOuterTorque(1, 2), validFrom: '2022-01-01' };
    const engine = native();
    const source = await livesFromRecords(engine, report, [{ ...commonPractice, validFrom: '2020-01-01' }, later]);
    await source.ensure('seal');
    const found = await judgedLives(engine);
    const between = (from: string, to: string) =>
      count(`lives_seal where start_service_id is not null and install_date >= '${from}' and install_date < '${to}'`);
    const byVersion = new Map(found.byVersion.map(({ version, lives }) => [version, lives]));
    expect(byVersion.get(0)).toBe(await between('2020-01-01', '2022-01-01'));
    expect(byVersion.get(1)).toBe(await between('2022-01-01', '2100-01-01'));
    expect(byVersion.get(null) ?? 0).toBe(await between('1900-01-01', '2020-01-01'));
    await (await livesFromRecords(engine, report, proceduresOf(report))).ensure('seal');
  });

  it('lists every conflict of evidence with what says yes and what says no', async () => {
    const found = await conflicts(native(), 0, 10_000);
    expect(await conflicts(wasm(), 0, 10_000)).toEqual(found);
    const { conflicts: counts } = await judgedLives(native());
    expect(found).toHaveLength(counts.reduce((sum, { lives }) => sum + lives, 0));
    for (const { says } of found) {
      const said = Object.values(says).filter((word) => word !== null);
      expect(new Set(said)).toEqual(new Set(['yes', 'no']));
    }
    expect(await conflicts(native(), 1, 2)).toEqual(found.slice(1, 3));
  });
});

it('asks nothing that either engine does not understand', async () => {
  const [id] = await someLives('seal');
  const life = (await openLife(native(), 'seal', String(id), miles))?.facts;
  if (!life) throw new Error('no life to ask about');
  const place = { fileId: 0, line: 2 };
  const asked: Statement[] = [
    ...names.flatMap((component) => [
      facts.lifeFactsStatement(component, String(id)),
      facts.failureStatement(component, 1, 0, 'x'),
      facts.renewalStatement(component, 1, 'x'),
      facts.mateStatement(component, 1, 'x'),
      history.unitLivesStatement(component, 'x'),
      history.unitWaitsStatement(component, 'x'),
      history.unitEventsStatement(component, 'x'),
      sourceRowsStatement({ ...life, component, startQuality: 'interpolated', endQuality: 'interpolated' }),
    ]),
    ...[history.unitSpanStatement('x'), facts.unitEndStatement('x', 1, 'left')],
    ...tableNames.map((table) => cellsStatement(table, [place, { ...place, line: 3 }])),
    ...[filesStatement, conflictsStatement(0, 50), judged.judgedStatement, judged.versionsStatement],
    ...[judged.conflictCountsStatement, judged.dropJudgements],
  ];
  for (const engine of [native(), wasm()]) {
    await engine.run(judged.keepJudgements);
    for (const { text, values } of [...asked, judged.changedStatement])
      expect((await engine.query({ text: `explain ${text}`, values })).rows, text).toBeGreaterThan(0);
    await engine.run(judged.dropJudgements);
  }
});
