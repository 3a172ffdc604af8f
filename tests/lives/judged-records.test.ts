// Miles, meters, numbers and windows, worked by hand from sections 2 and 5 of the record contract. Unless a
// case says otherwise: one tractor with one steer axle, new at 0 miles on 2020-01-01, 100 miles a day.
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { repairCounts } from '../../lib/lives/index.ts';
import { choicesSchema, mileageRuleNames, type Choices } from '../../shared/choices.ts';
import { drawnFleet } from './oracle/arbitrary-histories.ts';
import { commonPractice, rebuild, rowsOf, type Fleet, type Row } from './record-tables-in-engine.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const dayOf = (miles: number) => new Date(Date.UTC(2020, 0, 1) + (miles / 100) * 86_400_000).toISOString().slice(0, 10);
const unit = (more: Row = {}): Row => ({
  unit_id: '007',
  axle_roles: 'steer',
  acquired: 'new',
  in_service_date: '2020-01-01',
  in_service_miles: 0,
  ...more,
});
const reading = (ran: number, more: Row = {}): Row => ({ unit_id: '007', date: dayOf(ran), miles: ran, ...more });
const job = (id: string, ran: number, more: Row = {}): Row => ({
  ...{ service_id: id, unit_id: '007', axle: 1, side: 'left', date: dayOf(ran), miles: ran },
  ...{ replaced: 'seal', hub_build: 'adjusted', reason: 'planned', ...more },
});
const failure = (id: string, ran: number, more: Row = {}): Row => ({
  ...{ failure_id: id, unit_id: '007', axle: 1, side: 'left', date: dayOf(ran), miles: ran, mode: 'seal-inner' },
  ...more,
});
const everything = { from: '2020-01-01', to: '2029-12-31' };
const chosen = (some: object): Choices => choicesSchema.parse(some);

interface Asked {
  readonly window?: { from?: string; to?: string };
  readonly choices?: Choices;
  readonly unitId?: string;
}

/** [install, entry, exit miles, state, quality] of the seal lives of one wheel end. */
async function livesOf(fleet: Fleet, { window = everything, choices = chosen({}), unitId = '007' }: Asked = {}) {
  const source = await rebuild(
    engine,
    { units: [unit()], readings: [0, 20_000, 60_000, 80_000, 100_000].map((at) => reading(at)), ...fleet },
    window,
    [commonPractice],
    choices,
  );
  await source.ensure('seal');
  const rows = await rowsOf(
    engine,
    `select install_miles, entry_miles, exit_miles, state, mileage_quality from lives_seal where side = 'left' and unit_id = '${unitId}' order by slot`,
  );
  return rows.map((row) => Object.values(row));
}
const repairs = () =>
  rowsOf(
    engine,
    'select "table", line, rule, miles_written, miles_used, accepted_from, accepted_to from mileage_repairs order by "table", line, rule',
  );

describe('miles that cannot be right', () => {
  const wrong: Fleet = { services: [job('s1', 40_000, { miles: 400 })] };

  it('are interpolated on their day, marked, listed and counted', async () => {
    expect(await livesOf(wrong)).toEqual([
      [0, 0, 40_000, 'planned', 'interpolated'],
      [40_000, 0, 60_000, 'running', 'interpolated'],
    ]);
    // On day 400, between 20,000 on day 200 and 60,000 on day 600.
    expect(await repairs()).toEqual([
      {
        table: 'services',
        line: 2,
        rule: 'runs-backward',
        miles_written: 400,
        miles_used: 40_000,
        accepted_from: 20_000,
        accepted_to: 60_000,
      },
    ]);
    expect((await repairCounts(engine)).filter(({ rows }) => rows > 0)).toEqual([
      { rule: 'runs-backward', rows: 1, units: 1 },
    ]);
  });

  it('are used as written where the repair is switched off', async () => {
    const lives = await livesOf(wrong, { choices: chosen({ mileage: { 'runs-backward': false } }) });
    expect(lives[0]).toEqual([0, 0, 400, 'planned', 'measured']);
    expect(await repairs()).toEqual([]);
  });

  it('with one digit too many are read without it', async () => {
    expect((await livesOf({ services: [job('s1', 40_000, { miles: 470_100 })] }))[0]).toEqual([
      0,
      0,
      40_100,
      'planned',
      'interpolated',
    ]);
  });
});

describe('kilometres written where miles belong', () => {
  // 40,100 miles are 64,534.7 km, on day 401; the 60,000 miles of day 600 speak against as many miles.
  const written: Fleet = { services: [job('s1', 40_100, { miles: 64_535 })] };

  it('are divided, marked, listed and counted', async () => {
    expect((await livesOf(written))[0]).toEqual([0, 0, 40_100, 'planned', 'interpolated']);
    expect(await repairs()).toMatchObject([{ rule: 'kilometres', miles_written: 64_535, miles_used: 40_100 }]);
    expect((await repairCounts(engine)).filter(({ rows }) => rows > 0)).toEqual([
      { rule: 'kilometres', rows: 1, units: 1 },
    ]);
  });

  it('are set aside as any other reading where that is switched off', async () => {
    const lives = await livesOf(written, { choices: chosen({ mileage: { kilometres: false, 'digit-slip': false } }) });
    expect(lives[0]).toEqual([0, 0, 40_100, 'planned', 'interpolated']);
    expect(await repairs()).toMatchObject([{ rule: 'runs-backward', miles_used: 40_100 }]);
  });
});

describe('a new meter', () => {
  const reset = reading(50_000, { miles: 10, event: 'replaced', miles_before: 50_000 });
  const later = [60_000, 100_000].map((ran) => reading(ran, { miles: ran - 49_990 }));
  const services = [job('s1', 40_000), job('s2', 70_000, { miles: 20_010 })];

  it('that is written down shifts what follows, and ages stay measured', async () => {
    // The new meter began at 10 when 50,000 were run: 20,010 on it are 70,000.
    expect(await livesOf({ readings: [reading(0), reset, ...later], services })).toEqual([
      [0, 0, 40_000, 'planned', 'measured'],
      [40_000, 0, 30_000, 'planned', 'measured'],
      [70_000, 0, 30_000, 'running', 'measured'],
    ]);
    expect(
      (await repairs()).map(({ table, rule, miles_written, miles_used }) => [table, rule, miles_written, miles_used]),
    ).toEqual([
      ['readings', 'reset', 10, 50_000],
      ['readings', 'reset', 10_010, 60_000],
      ['readings', 'reset', 50_010, 100_000],
      ['services', 'reset', 20_010, 70_000],
    ]);
  });

  it('that nobody wrote down is bridged at the unit’s pace, and marks the lives across it', async () => {
    const untold = [
      reading(0),
      reading(20_000),
      ...[60_000, 80_000, 100_000].map((ran) => reading(ran, { miles: ran - 50_000 })),
    ];
    // From 40,000 on day 400 to day 600 at 100 miles a day: the 10,000 read then are 60,000.
    expect(
      await livesOf({ readings: untold, services: [job('s1', 40_000), job('s2', 70_000, { miles: 20_000 })] }),
    ).toEqual([
      [0, 0, 40_000, 'planned', 'measured'],
      [40_000, 0, 30_000, 'planned', 'interpolated'],
      [70_000, 0, 30_000, 'running', 'measured'],
    ]);
  });
});

describe('a trailer without a hub odometer', () => {
  const trailer = (unit_id: string, more: Row = {}) =>
    unit({ unit_id, axle_roles: 'trailer', in_service_miles: null, ...more });
  const like = [50, 60, 90].flatMap((pace, at) => [
    { unit_id: `T${at}`, date: '2020-01-01', miles: 0 },
    { unit_id: `T${at}`, date: '2021-01-01', miles: 366 * pace },
  ]);
  const fleet: Fleet = {
    units: [...[0, 1, 2].map((at) => trailer(`T${at}`)), trailer('T9')],
    readings: like,
    services: [job('s1', 0, { unit_id: 'T9', date: '2020-04-10', miles: null })],
  };
  const window = { from: '2020-01-01', to: '2020-12-31' };

  it('runs what half of the trailers like it run at most, from its first day to the window’s end, all marked', async () => {
    // 60 miles a day: 100 days to 10 April, 365 to 31 December (2020 has 366).
    expect(await livesOf(fleet, { window, unitId: 'T9' })).toEqual([
      [0, 0, 6_000, 'planned', 'extrapolated'],
      [6_000, 0, 15_900, 'running', 'extrapolated'],
    ]);
    expect((await repairCounts(engine)).find(({ rule }) => rule === 'like-units')).toMatchObject({ rows: 1, units: 1 });
  });

  it('has no lives where that is switched off, or where fewer than three are like it', async () => {
    expect(
      await livesOf(fleet, { window, unitId: 'T9', choices: chosen({ mileage: { 'like-units': false } }) }),
    ).toEqual([]);
    const two = { ...fleet, units: (fleet.units ?? []).filter((row) => row['unit_id'] !== 'T2') };
    expect(await livesOf(two, { window, unitId: 'T9' })).toEqual([]);
  });

  it('is no longer estimated once its own miles are known on two days', async () => {
    const own = [
      { unit_id: 'T9', date: '2020-01-01', miles: 0 },
      { unit_id: 'T9', date: '2020-07-19', miles: 20_000 },
    ];
    // 20,000 in 200 days: 10,000 on the hundredth.
    expect((await livesOf({ ...fleet, readings: [...like, ...own] }, { window, unitId: 'T9' }))[0]?.[3]).toBe(
      'planned',
    );
    expect(
      (await livesOf({ ...fleet, readings: [...like, ...own] }, { window, unitId: 'T9' }))[1]?.slice(0, 3),
    ).toEqual([10_000, 0, 10_000]);
  });
});

describe('a renumbered unit', () => {
  const split: Fleet = {
    units: [unit({ former_ids: '006' })],
    readings: [reading(0, { unit_id: '006' }), reading(40_000, { unit_id: '006' }), reading(100_000)],
    services: [job('s1', 30_000, { unit_id: '006' }), job('s2', 70_000)],
  };
  it('has one history under its number of today', async () => {
    expect((await livesOf(split)).map((life) => life.slice(0, 4))).toEqual([
      [0, 0, 30_000, 'planned'],
      [30_000, 0, 40_000, 'planned'],
      [70_000, 0, 30_000, 'running'],
    ]);
  });
  it('has two where former numbers are not to be followed', async () => {
    const lives = await livesOf(split, { choices: chosen({ formerIds: false }) });
    expect(lives.map((life) => life.slice(0, 4))).toEqual([
      [0, 0, 70_000, 'planned'],
      [70_000, 0, 30_000, 'running'],
    ]);
  });
});

describe('a repair set aside as said before', () => {
  it('still is the repair: the link leads on to the row that was kept', async () => {
    await engine.run({
      text: 'create or replace table duplicate_ids ("table" varchar, id varchar, kept_id varchar)',
      values: [],
    });
    await engine.run({ text: `insert into duplicate_ids values ('services', 's1-again', 's1')`, values: [] });
    try {
      // Fitted 200 miles before the leak was written down: only a link makes it the repair (5.4).
      const linked = failure('f1', 30_200, { repair_service_id: 's1-again' });
      const lives = await livesOf({ services: [job('s1', 30_000, { reason: 'failure' })], failures: [linked] });
      expect(lives.map((life) => life.slice(2, 4))).toEqual([
        [30_000, 'failed'],
        [70_000, 'running'],
      ]);
    } finally {
      await engine.run({ text: 'drop table duplicate_ids', values: [] });
    }
  });
});

describe('the window of a source', () => {
  const units = [unit({ home_shop: 'North' }), unit({ unit_id: '008', home_shop: 'South' })];
  const both = (row: Row, id: string): Row => ({ ...row, unit_id: '008', [id]: `${String(row[id])}-8` });
  const services = [job('s1', 20_000), job('s2', 60_000)];
  const failures = [failure('f1', 20_000), failure('f2', 60_000)];
  const readings = [reading(0), reading(100_000)];
  const fleet: Fleet = {
    units,
    readings: [...readings, ...readings.map((row) => ({ ...row, unit_id: '008' }))],
    services: [...services, ...services.map((row) => both(row, 'service_id'))],
    failures: [...failures, ...failures.map((row) => both(row, 'failure_id'))],
  };
  // South wrote failures down from the day on which 50,000 were run.
  const choices = chosen({ windows: [{ shop: 'South', from: dayOf(50_000) }] });

  it('counts what a unit ran only while its shop recorded, late entries by age', async () => {
    expect(await livesOf(fleet, { choices })).toHaveLength(3);
    expect(await livesOf(fleet, { choices, unitId: '008' })).toEqual([
      [20_000, 30_000, 40_000, 'failed', 'measured'],
      [60_000, 0, 40_000, 'running', 'measured'],
    ]);
    expect(await rowsOf(engine, `select fate from failure_fates_seal where failure_id = 'f1-8'`)).toEqual([
      { fate: 'outside the observation window' },
    ]);
  });

  it('may go by the files that the unit’s rows are in, and the narrower of two counts', async () => {
    const inFiles = Object.fromEntries(
      Object.entries(fleet).map(([table, rows]) => [
        table,
        rows.map((row: Row) => ({ ...row, file_id: row['unit_id'] === '008' ? 1 : 0 })),
      ]),
    );
    const files = ['north.csv', 'South.csv'].map((name) => ({
      name,
      table: null,
      read: 0,
      kept: 0,
      setAside: 0,
      unusedColumns: [],
      refused: null,
      fingerprint: '',
    }));
    const windows = [
      { files: 'south*', from: dayOf(50_000) },
      { shop: 'South', to: dayOf(80_000) },
    ];
    const source = await rebuild(engine, inFiles, everything, [commonPractice], chosen({ windows }), files);
    await source.ensure('seal');
    expect(await rowsOf(engine, `select unit_id, from_miles, to_miles from work_unit_spans order by unit_id`)).toEqual([
      { unit_id: '007', from_miles: 0, to_miles: 100_000 },
      { unit_id: '008', from_miles: 50_000, to_miles: 80_000 },
    ]);
  });
});

describe('any records, whatever is wrong with their miles', () => {
  const runs = Number(process.env['HUBCAUSE_LAW_RUNS'] ?? 6);
  const allOff = chosen({ mileage: Object.fromEntries(mileageRuleNames.map((rule) => [rule, false])) });

  it('keep their miles as written with every repair off', async () => {
    await fc.assert(
      fc.asyncProperty(drawnFleet(6), async ({ fleet, window }) => {
        await rebuild(engine, fleet, window, [commonPractice], allOff);
        expect(await repairs()).toEqual([]);
        for (const table of ['services', 'failures', 'inspections'])
          expect(
            await rowsOf(
              engine,
              `select 1 from work_placed_${table} where miles is distinct from at_miles or miles_quality <> 'measured'`,
            ),
          ).toEqual([]);
      }),
      { numRuns: runs },
    );
  }, 900_000);

  it('give the same lives and repairs in whatever order their rows come, and share out every mile', async () => {
    await fc.assert(
      fc.asyncProperty(drawnFleet(6), async ({ fleet, window }) => {
        const all = async (some: Fleet) => {
          await (await rebuild(engine, some, window)).ensure('seal');
          const lives = await rowsOf(
            engine,
            'select life_id, entry_miles, exit_miles, state, mileage_quality, exposure_months from lives_seal order by life_id',
          );
          return [
            lives,
            await rowsOf(
              engine,
              'select unit_id, "table", cast(date as varchar) as date, rule, miles_written, miles_used from mileage_repairs order by all',
            ),
          ];
        };
        const before = await all(fleet);
        const off = await rowsOf(
          engine,
          `with ran as (select wheel_end, greatest(to_miles - from_miles, 0) as miles from work_wheel_ends join work_unit_spans using (unit_id)),
            lived as (select wheel_end, sum(exposure_miles) as miles, cast(count(*) filter (exposure_miles = 1) as double) as single from lives_seal group by all),
            waited as (select wheel_end, sum(to_miles - from_miles) as miles from after_failure_seal group by all)
          select wheel_end, ran.miles as ran, coalesce(lived.miles, 0) + coalesce(waited.miles, 0) as shared from ran left join lived using (wheel_end) left join waited using (wheel_end)
          where abs(ran.miles - coalesce(lived.miles, 0) - coalesce(waited.miles, 0)) > 1e-6 + coalesce(lived.single, 0)`,
        );
        expect(off).toEqual([]);
        expect(
          await all(Object.fromEntries(Object.entries(fleet).map(([table, rows]) => [table, [...rows].reverse()]))),
        ).toEqual(before);
      }),
      { numRuns: runs },
    );
  }, 900_000);
});
