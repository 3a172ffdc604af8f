// Cases worked by hand from the rules of a life (record contract, section 5). Unless a test says
// otherwise: one tractor with one steer axle, new at 0 miles on 2020-01-01, 100 miles a day.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import type { Component } from '../../shared/vocabulary.ts';
import { rebuild, rowsOf, type Fleet, type Row } from './record-tables-in-engine.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const unit = (more: Row = {}): Row => ({
  unit_id: '007',
  axle_roles: 'steer',
  acquired: 'new',
  in_service_date: '2020-01-01',
  in_service_miles: 0,
  ...more,
});
const dayOf = (miles: number) => new Date(Date.UTC(2020, 0, 1) + (miles / 100) * 86_400_000).toISOString().slice(0, 10);
const at = (miles: number) => ({ unit_id: '007', axle: 1, side: 'left', date: dayOf(miles), miles });
const job = (id: string, miles: number, more: Row = {}): Row => ({
  service_id: id,
  ...at(miles),
  replaced: 'seal',
  hub_build: 'adjusted',
  reason: 'planned',
  ...more,
});
const failure = (id: string, miles: number, more: Row = {}): Row => ({
  failure_id: id,
  ...at(miles),
  mode: 'seal-inner',
  ...more,
});
const check = (id: string, miles: number, more: Row = {}): Row => ({
  inspection_id: id,
  ...at(miles),
  checked: 'yes',
  leak: 0,
  ...more,
});
const reading = (miles: number): Row => ({ unit_id: '007', date: dayOf(miles), miles });

const everything = { from: '2020-01-01', to: '2029-12-31' };

async function livesOf(
  fleet: Fleet,
  window: { from?: string; to?: string } = everything,
  component: Component = 'seal',
  side = 'left',
) {
  const source = await rebuild(engine, { units: [unit()], readings: [reading(0), reading(100_000)], ...fleet }, window);
  await source.ensure(component);
  return rowsOf(
    engine,
    `select * replace (cast(install_date as varchar) as install_date) from lives_${component} where side = '${side}' order by slot`,
  );
}
const brief = (rows: Row[]) =>
  rows.map((row) => [row['install_miles'], row['entry_miles'], row['exit_miles'], row['state'], row['mode']]);

describe('starts', () => {
  it('runs a wheel end without a record from new to the last known miles', async () => {
    const [life, ...more] = await livesOf({});
    expect(more).toEqual([]);
    expect(life).toMatchObject({
      install_miles: 0,
      entry_miles: 0,
      exit_miles: 100_000,
      exposure_miles: 100_000,
      state: 'running',
      install_kind: 'original',
      role: 'steer',
      end_id: null,
    });
  });

  it('starts at a service that replaced the seal and ends the life before', async () => {
    const lives = await livesOf({ services: [job('s1', 40_000, { shop: 'North', lubricant: 'oil' })] });
    expect(brief(lives)).toEqual([
      [0, 0, 40_000, 'planned', null],
      [40_000, 0, 60_000, 'running', null],
    ]);
    expect(lives[1]).toMatchObject({
      shop: 'North',
      lubricant: 'oil',
      install_kind: 'replacement',
      life_number: 2,
      start_service_id: 's1',
      install_date: dayOf(40_000),
      inferred: 'no',
    });
  });

  it('starts nothing where another part alone was replaced', async () => {
    expect(brief(await livesOf({ services: [job('s1', 40_000, { replaced: 'lining;hubcap' })] }))).toEqual([
      [0, 0, 100_000, 'running', null],
    ]);
  });

  it('infers a renewal where the procedure renews the seal whenever the hub comes off', async () => {
    const lives = await livesOf({ services: [job('s1', 40_000, { replaced: 'bearings' })] });
    expect(lives.map((life) => [life['state'], life['inferred']])).toEqual([
      ['planned', 'no'],
      ['running', 'start'],
    ]);
  });

  it('starts a life of a unitized hub only with the hub', async () => {
    const unitized = (replaced: string) => job('s1', 40_000, { replaced, hub_build: 'unitized' });
    expect(await livesOf({ services: [unitized('seal;bearings')] })).toHaveLength(1);
    expect(await livesOf({ services: [unitized('hub')] })).toHaveLength(2);
  });

  it('does not know the age of the first seal of a used unit, and still counts its miles', async () => {
    const units = [unit({ acquired: 'used', in_service_miles: 20_000, in_service_date: dayOf(20_000) })];
    const lives = await livesOf({
      units,
      readings: [reading(100_000)],
      failures: [failure('f1', 30_000)],
      services: [job('s1', 30_000, { reason: 'failure' })],
    });
    expect(lives[0]).toMatchObject({
      install_miles: null,
      entry_miles: null,
      exit_miles: null,
      onset_lower_miles: null,
      exposure_miles: 10_000,
      state: 'failed',
      install_kind: 'unknown',
      install_known: 0,
    });
    expect(brief(lives)[1]).toEqual([30_000, 0, 70_000, 'running', null]);
  });

  it('does not know the age of the first seal of a new unit whose miles then are not told', async () => {
    const units = [unit({ in_service_miles: null, in_service_date: dayOf(20_000) })];
    const [life] = await livesOf({ units });
    expect(life).toMatchObject({ install_kind: 'unknown', install_miles: null, exposure_miles: 80_000 });
  });

  it('takes a unit of few miles for new where nothing is said', async () => {
    const first = async (in_service_miles: number) =>
      (await livesOf({ units: [unit({ acquired: null, in_service_miles })] }))[0]?.['install_kind'];
    expect(await first(1_000)).toBe('original');
    expect(await first(1_001)).toBe('unknown');
  });
});

describe('failures and their repair', () => {
  it('ends at the miles the leak was found, and leaves the miles until the repair out', async () => {
    const lives = await livesOf({
      failures: [failure('f1', 30_000, { lining_contaminated: 'yes' })],
      services: [job('s1', 31_000, { reason: 'failure' })],
    });
    expect(brief(lives)).toEqual([
      [0, 0, 30_000, 'failed', 'seal-inner'],
      [31_000, 0, 69_000, 'running', null],
    ]);
    expect(lives[0]).toMatchObject({ end_id: 'f1', lining_contaminated: 'yes' });
    expect(lives[1]).toMatchObject({ prior_failures: 1 });
    expect(await rowsOf(engine, 'select from_miles, to_miles from after_failure_seal')).toEqual([
      { from_miles: 30_000, to_miles: 31_000 },
    ]);
  });

  it('takes a failure on the day of the renewal, at the same miles, to be what was repaired', async () => {
    expect(brief(await livesOf({ failures: [failure('f1', 30_000)], services: [job('s1', 30_000)] }))).toEqual([
      [0, 0, 30_000, 'failed', 'seal-inner'],
      [30_000, 0, 70_000, 'running', null],
    ]);
  });

  it('takes a failure ten days after an installation for an early failure of the new seal', async () => {
    expect(brief(await livesOf({ services: [job('s1', 30_000)], failures: [failure('f1', 31_000)] }))).toEqual([
      [0, 0, 30_000, 'planned', null],
      [30_000, 0, 1_000, 'failed', 'seal-inner'],
    ]);
  });

  it('lets an earlier service be the repair only where it is linked, and then ends the life there', async () => {
    expect(
      brief(
        await livesOf({
          services: [job('s1', 30_000, { reason: 'failure' })],
          failures: [failure('f1', 30_200, { repair_service_id: 's1' })],
        }),
      ),
    ).toEqual([
      [0, 0, 30_000, 'failed', 'seal-inner'],
      [30_000, 0, 70_000, 'running', null],
    ]);
  });

  it('counts further reports before the repair as the same episode', async () => {
    const lives = await livesOf({
      failures: [
        failure('f1', 30_000, { lining_contaminated: 'no' }),
        failure('f2', 30_500, { lining_contaminated: 'yes' }),
      ],
      services: [job('s1', 31_000)],
    });
    expect(lives.filter((life) => life['state'] === 'failed')).toHaveLength(1);
    expect(lives[0]).toMatchObject({ exit_miles: 30_000, lining_contaminated: 'yes' });
    expect(await rowsOf(engine, 'select failure_id, fate from failure_fates_seal order by failure_id')).toEqual([
      { failure_id: 'f1', fate: 'ended a life' },
      { failure_id: 'f2', fate: 'further report of an episode already counted' },
    ]);
  });

  it('gives a failure at age 0 one mile', async () => {
    const services = [job('s1', 30_000), job('s2', 30_000, { date: dayOf(30_500) })];
    const failures = [failure('f1', 30_000, { date: dayOf(30_300) })];
    expect(brief(await livesOf({ services, failures }))).toEqual([
      [0, 0, 30_000, 'planned', null],
      [30_000, 0, 1, 'failed', 'seal-inner'],
      [30_000, 0, 70_000, 'running', null],
    ]);
  });

  it('lists a wheel lost through its fasteners and counts it nowhere', async () => {
    const lives = await livesOf({
      failures: [failure('f1', 30_000, { mode: 'wheel-lost', wheel_lost: 'yes', wheel_lost_by: 'fastener' })],
    });
    expect(brief(lives)).toEqual([[0, 0, 100_000, 'running', null]]);
    expect(await rowsOf(engine, 'select episode_id from episodes')).toEqual([]);
    expect(await rowsOf(engine, 'select fate from failure_fates_seal')).toEqual([
      { fate: 'wheel lost through its fasteners: listed, not counted' },
    ]);
  });
});

describe('end states of a renewal without a failure of its own', () => {
  const endOf = async (service: Row, more: Fleet = {}) => {
    const { services = [], ...rest } = more;
    return (await livesOf({ ...rest, services: [job('s1', 40_000, service), ...services] }))[0]?.['state'];
  };
  const mateJob = (more: Row = {}) => job('m1', 40_000, { side: 'right', order_id: 'w1', ...more });

  it.each([
    [{ reason: 'planned' }, 'planned'],
    [{ reason: 'brake-work' }, 'planned'],
    [{ reason: null }, 'removed-unknown'],
    [{ reason: 'other' }, 'removed-unknown'],
    [{ reason: 'inspection-finding', replaced: 'seal;bearings' }, 'removed-unknown'],
    [{ reason: 'inspection-finding', replaced: 'hub' }, 'removed-unknown'],
    [{ reason: 'inspection-finding' }, 'failed'],
    [{ reason: 'failure' }, 'failed'],
    [{ reason: 'comeback' }, 'failed'],
    [{ reason: 'failure', replaced: 'seal;bearings' }, 'other-failure'],
  ])('%o ends as %s', async (service, state) => {
    expect(await endOf(service)).toBe(state);
  });

  it('marks a failure without a failure row as inferred, its path unknown', async () => {
    const lives = await livesOf({ services: [job('s1', 40_000, { reason: 'failure' })] });
    expect(lives[0]).toMatchObject({
      state: 'failed',
      mode: 'seal-unknown',
      inferred: 'end',
      end_id: 's1',
      exit_miles: 40_000,
      lining_contaminated: 'unknown',
    });
  });

  it('is another failure where a bearing failed there up to 30 days and 3,000 miles before', async () => {
    const bearing = (miles: number): Fleet => ({ failures: [failure('f1', miles, { mode: 'bearing' })] });
    expect(await endOf({ reason: 'planned' }, bearing(37_000))).toBe('other-failure');
    expect(await endOf({ reason: 'planned' }, bearing(36_900))).toBe('planned');
  });

  it('is planned where the mate end failed, whatever the reason on this row', async () => {
    const failures = [failure('f1', 39_500, { side: 'right' })];
    expect(
      await endOf({ reason: 'failure', order_id: 'w1' }, { failures, services: [mateJob({ reason: 'failure' })] }),
    ).toBe('planned');
    expect(await endOf({ reason: null, order_id: 'w1' }, { services: [mateJob({ reason: 'failure' })] })).toBe(
      'planned',
    );
    expect(await endOf({ reason: 'failure', order_id: 'w1' }, { services: [mateJob({ reason: 'failure' })] })).toBe(
      'failed',
    );
    const found = mateJob({ reason: 'inspection-finding' });
    expect(await endOf({ reason: null, order_id: 'w1' }, { services: [found] })).toBe('planned');
    const deep = mateJob({ reason: 'inspection-finding', replaced: 'seal;bearings' });
    expect(await endOf({ reason: null, order_id: 'w1' }, { services: [deep] })).toBe('removed-unknown');
    expect(await endOf({ reason: null, order_id: 'w1' }, { services: [mateJob({ reason: 'planned' })] })).toBe(
      'removed-unknown',
    );
  });
});

describe('the window', () => {
  it('lets a life enter late, at its age when observation began', async () => {
    const lives = await livesOf(
      { services: [job('s1', 40_000)], readings: [reading(0), reading(50_000), reading(100_000)] },
      { from: dayOf(50_000), to: '2029-12-31' },
    );
    expect(brief(lives)).toEqual([[40_000, 10_000, 60_000, 'running', null]]);
    expect(lives[0]).toMatchObject({ exposure_miles: 50_000, life_number: 2 });
  });

  it('stops a running life at the miles of the last day, interpolated in days', async () => {
    expect(brief(await livesOf({}, { from: '2020-01-01', to: dayOf(25_000) }))).toEqual([
      [0, 0, 25_000, 'running', null],
    ]);
  });

  it('leaves out a failure before the window, and says so', async () => {
    const lives = await livesOf(
      { failures: [failure('f1', 30_000)], services: [job('s1', 31_000)] },
      { from: dayOf(50_000), to: '2029-12-31' },
    );
    expect(brief(lives)).toEqual([[31_000, 19_000, 69_000, 'running', null]]);
    expect(lives[0]).toMatchObject({ prior_failures: 1 });
    expect(await rowsOf(engine, 'select fate from failure_fates_seal')).toEqual([
      { fate: 'outside the observation window' },
    ]);
  });

  it('ends lives when the unit leaves', async () => {
    const units = [unit({ out_date: dayOf(80_000), out_miles: 80_000, out_reason: 'sold' })];
    expect(brief(await livesOf({ units, readings: [reading(0)] }))).toEqual([[0, 0, 80_000, 'unit-left', null]]);
  });

  it('takes the first and last date of services, inspections and failures where none is declared', async () => {
    const lives = await livesOf(
      {
        inspections: [check('i1', 10_000)],
        failures: [failure('f1', 60_000, { side: 'right' })],
        readings: [reading(0), reading(10_000), reading(100_000)],
      },
      {},
    );
    expect(brief(lives)).toEqual([[0, 10_000, 60_000, 'running', null]]);
  });
});

describe('onset', () => {
  it('lies between the last clean check and the finding', async () => {
    const inspections = [
      check('i1', 10_000),
      check('i2', 20_000),
      check('i3', 25_000, { checked: 'no' }),
      check('i4', 28_000, { leak: 1 }),
    ];
    expect((await livesOf({ inspections, failures: [failure('f1', 30_000)] }))[0]).toMatchObject({
      onset_lower_miles: 20_000,
      onset_upper_miles: 30_000,
    });
  });

  it('runs from installation where nothing was checked', async () => {
    expect((await livesOf({ failures: [failure('f1', 30_000)] }))[0]).toMatchObject({
      onset_lower_miles: 0,
      onset_upper_miles: 30_000,
    });
  });

  it('is right-censored at the last clean check while running, at removal where renewed', async () => {
    const lives = await livesOf({
      inspections: [check('i1', 10_000), check('i2', 70_000)],
      services: [job('s1', 40_000)],
    });
    expect(lives.map((life) => [life['onset_lower_miles'], life['onset_upper_miles']])).toEqual([
      [40_000, null],
      [30_000, null],
    ]);
  });
});

describe('mates, miles and other components', () => {
  it('names the life across the axle in use when this one began', async () => {
    const fleet = { services: [job('s1', 40_000), job('m1', 30_000, { side: 'right' })] };
    const left = await livesOf(fleet);
    const right = await livesOf(fleet, everything, 'seal', 'right');
    expect(left.map((life) => life['mate_life_id'])).toEqual([right[0]?.['life_id'], right[1]?.['life_id']]);
    expect(right.map((life) => life['mate_life_id'])).toEqual([left[0]?.['life_id'], left[0]?.['life_id']]);
  });

  it('interpolates blank miles in days and says so', async () => {
    const lives = await livesOf({ services: [job('s1', 40_000, { miles: null })] });
    expect(lives.map((life) => [life['exit_miles'], life['mileage_quality']])).toEqual([
      [40_000, 'interpolated'],
      [60_000, 'interpolated'],
    ]);
  });

  it('rebuilds bearing lives from bearing parts and modes', async () => {
    const fleet = {
      services: [
        job('s1', 40_000, { replaced: 'seal' }),
        job('s2', 60_000, { replaced: 'bearings;seal', reason: 'failure' }),
      ],
      failures: [failure('f1', 59_000, { mode: 'hot-hub' })],
    };
    expect(brief(await livesOf(fleet, everything, 'bearing'))).toEqual([
      [0, 0, 59_000, 'failed', 'hot-hub'],
      [60_000, 0, 40_000, 'running', null],
    ]);
    expect((await livesOf(fleet)).map((life) => life['state'])).toEqual(['planned', 'other-failure', 'running']);
  });

  it('places every episode in the seal life in whose exposure it was found', async () => {
    await livesOf({
      services: [job('s1', 40_000)],
      failures: [
        failure('f1', 20_000, { mode: 'vent' }),
        failure('f2', 50_000),
        failure('f3', 51_000, { mode: 'hot-hub' }),
      ],
    });
    const found = await rowsOf(engine, 'select episode_id, component, life_id from episodes order by episode_id');
    expect(found).toEqual([
      { episode_id: 'f1', component: 'other', life_id: '007 1 left seal 1' },
      { episode_id: 'f2', component: 'seal', life_id: '007 1 left seal 2' },
      { episode_id: 'f3', component: 'bearing', life_id: null },
    ]);
  });

  it('works without a units table, from the wheel ends that records name', async () => {
    const lives = await livesOf({
      units: [],
      services: [job('s1', 40_000, { replaced: 'bearings', hub_build: 'spacer' })],
    });
    expect(lives.map((life) => [life['install_kind'], life['exposure_miles'], life['role']])).toEqual([
      ['unknown', 40_000, null],
      ['replacement', 60_000, null],
    ]);
  });

  it('does not place rows of a unit or an axle that the units table does not have', async () => {
    await livesOf({ failures: [failure('f1', 30_000, { unit_id: '008' }), failure('f2', 30_000, { axle: 2 })] });
    expect(await rowsOf(engine, 'select fate from failure_fates_seal order by failure_id')).toEqual([
      { fate: 'unit not in the units table' },
      { fate: 'the unit has no such axle' },
    ]);
  });
});
