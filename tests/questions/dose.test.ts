import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { hazardOverValue } from '../../lib/questions/dose/dose-fits.ts';
import { roundingOf } from '../../lib/questions/dose/rounding.ts';
import { smoothBasis } from '../../lib/questions/dose/smooth-basis.ts';
import { sideOf, stretches } from '../../lib/questions/dose/value-window.ts';
import { ask } from '../../lib/questions/index.ts';
import { findingSchema, type Finding } from '../../shared/finding.ts';
import { viewSchema } from '../../shared/view.ts';
import { rebuild, type Fleet } from '../lives/record-tables-in-engine.ts';
import { fleet as livesFleet } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

test('a window holds its limits, and a converted limit too', () => {
  const window = { least: 0.001, most: 0.005 };
  expect([0.0009, 0.001, 0.127 / 25.4, 0.0051].map((value) => sideOf(window, value))).toEqual([
    'under',
    'inside',
    'inside',
    'over',
  ]);
  const labels = stretches({ least: 250, most: 350 }, 'inner-torque', 'us');
  const where = (value: number) => labels.filter(({ holds }) => holds(value)).map(({ label }) => label);
  for (const value of [10, 200, 249, 250, 283.4, 300, 316, 350, 351, 400, 401, 1e6])
    expect(where(value)).toHaveLength(1);
  expect(where(300)).toEqual(['283.3 to 316.7 lbf·ft']);
  expect(where(350)).toEqual(['316.7 to 350 lbf·ft']);
  expect(where(200)).toEqual(['200 to under 250 lbf·ft']);
  expect(where(199)).toEqual(['under 200 lbf·ft']);
  // 283.33 and 316.67 lbf·ft at 1.35582 N·m each (NIST SP 811, B.8); 0.001 in and 0.005 in are 0.0254 and 0.127 mm.
  expect(stretches({ least: 250, most: 350 }, 'inner-torque', 'metric')[3]?.label).toBe('384.1 to 429.3 N·m');
  expect(stretches(window, 'end-play', 'metric').map(({ label }) => label)).toContain('over 0.127 to 0.178 mm');
});

test('rounding to the nominal is counted', () => {
  const value = Float64Array.of(300, 300, 300, 295, 305, 320, 320, 280, 290, 310);
  expect(roundingOf({ value, window: { least: 250, most: 350 } })).toEqual({
    ...{ readings: 10, distinct: 7, nominal: 0.3, mostCommon: 300, mostCommonShare: 0.3 },
  });
});

describe('the curve over the value', () => {
  // Knots at 5, 35, 65 and 95 of 0 … 99.
  const { knots, at } = smoothBasis(Float64Array.from({ length: 100 }, (_, place) => place));
  test('bends at the stated shares of the readings', () => expect(knots).toEqual([5, 35, 65, 95]));
  test('is flat before, straight after, and at the last knot what the formula gives', () => {
    expect(at(4)).toEqual([4, 0, 0]);
    // (90³ − 30³ · 90/30) / 90² at the last knot, from the first: 8100/8100 · 90 − 3 · 27000/8100 = 80.
    expect(at(95)[1]).toBeCloseTo(80, 10);
    for (const bend of [1, 2]) {
      const [one, two, three] = [100, 110, 120].map((value) => at(value)[bend] as number) as [number, number, number];
      expect(three - two).toBeCloseTo(two - one, 8);
    }
  });
  test('rounded readings leave a straight line', () => {
    expect(smoothBasis(Float64Array.of(3, 3, 3, 3, 3, 3, 4)).at(5)).toEqual([5]);
  });
});

const dayOf = (miles: number) => new Date(Date.UTC(2020, 0, 1) + (miles / 100) * 86_400_000).toISOString().slice(0, 10);
const names = Array.from({ length: 44 }, (_, place) => `U${place}`);
/** 24 jobs read 0.003 in, of which 12 leak after 10,000 miles; 16 read 0.006, of which 12 do; 4 wrote a zero nobody read. */
const endPlay = (place: number) => (place < 24 ? 0.003 : place < 40 ? 0.006 : 0);
const leaks = (place: number) => place < 12 || (place >= 24 && place < 36);
const fleet: Fleet = {
  units: names.map((name) => ({
    ...{ unit_id: name, axle_roles: 'steer', acquired: 'new', in_service_date: '2020-01-01', in_service_miles: 0 },
  })),
  readings: names.flatMap((name) => [0, 100_000].map((miles) => ({ unit_id: name, date: dayOf(miles), miles }))),
  services: names.map((name, place) => ({
    ...{ service_id: `S${place}`, unit_id: name, axle: 1, side: 'left', date: dayOf(10_000), miles: 10_000 },
    ...{ replaced: 'seal', hub_build: 'adjusted', nut_system: 'double', reason: 'planned', shop: 'Fit' },
    ...{ end_play_in: endPlay(place), ...(place < 40 ? { end_play_measured: 'yes' } : {}) },
  })),
  failures: names.flatMap((name, place) =>
    leaks(place)
      ? [
          {
            ...{ failure_id: `F${place}`, unit_id: name, axle: 1, side: 'left', mode: 'seal-inner' },
            ...{ date: dayOf(20_000), miles: 20_000 },
          },
        ]
      : [],
  ),
};

describe('end play told by the records', () => {
  let finding: Finding;
  beforeAll(async () => {
    const source = await rebuild(engine, fleet, { from: '2020-01-01', to: dayOf(100_000) });
    finding = findingSchema.parse(await ask(source, 'dose', viewSchema.parse({ deviation: 'end-play-high' })));
  });
  const group = (label: string) => finding.groups.find((own) => own.label === label);

  test('its rates are failures over miles', () => {
    // Middle: 12 · 10,000 + 12 · 90,000 miles. Over: 12 · 10,000 + 4 · 90,000.
    expect(group('0.0023 to 0.0037 in')?.estimates['failuresPerMillionMiles']?.value).toBeCloseTo(10, 6);
    expect(group('over 0.005 to 0.007 in')?.estimates['failuresPerMillionMiles']?.value).toBeCloseTo(25, 6);
    expect(group('over 0.005 to 0.007 in')?.estimates['hazardRatio']?.value as number).toBeGreaterThan(1);
  });
  test('a zero nobody read is no reading', () => {
    expect(finding.data.lives).toBe(40);
    expect(finding.doubts.find(({ name }) => name === 'Not measured')?.detail).toContain('(4)');
  });
  test('the window is drawn and the heap at its middle flagged', () => {
    expect(finding.series.find(({ name }) => name === 'window')?.columns).toMatchObject({
      least: [0.001],
      most: [0.005],
    });
    expect(finding.doubts.find(({ name }) => name === 'Rounded readings')).toMatchObject({ state: 'fails' });
    expect(finding.doubts.find(({ name }) => name === 'Rounded readings')?.detail).toContain('60\u00a0% of 40');
    expect(finding.series.find(({ name }) => name === 'readings')?.columns).toEqual({
      ...{ value: [0.003, 0.006], lives: [24, 16], failures: [12, 12] },
    });
  });
});

test('a lives table tells no measured values, and says so', async () => {
  const source = await livesFleet(engine, [{ exit_miles: 1000, state: 'failed', mode: 'seal-inner' }]);
  const finding = findingSchema.parse(await ask(source, 'dose', viewSchema.parse({})));
  expect(finding.answer).toContain('Cannot be told');
});

test('the limits of the curve are the same in any unit of the value', () => {
  // exp(βx) of x in other units is the same hazard: ratios and limits may not move, nor leave the numbers.
  const lives = Array.from({ length: 60 }, (_, place) => place);
  const levels = { levels: ['all'], codes: new Int32Array(lives.length) };
  const curve = (unit: number) => {
    const [series] = hazardOverValue(
      {
        ...{ asked: { kind: 'component', component: 'seal' } as never, quantity: 'end-play' },
        window: { least: unit, most: 5 * unit },
        value: Float64Array.from(lives, (place) => unit * (1 + ((place * 7) % 6))),
        entry: new Float64Array(lives.length),
        exit: Float64Array.from(lives, (place) => 1000 + ((place * 37) % 60) * 500),
        event: Uint8Array.from(lives, (place) => (place % 3 === 0 ? 0 : 1)),
        ...{ miles: new Float64Array(lives.length), exposure: new Float64Array(lives.length) },
        adjustment: {
          ...{ covariates: {}, strata: levels, strataOf: [], said: [] },
          cluster: { levels: lives.map(String), codes: Int32Array.from(lives) },
        },
        ...{ leftOut: {} as never, untold: 0, otherWindow: 0 },
      },
      0.95,
    );
    return series?.columns as Record<'lower' | 'ratio' | 'upper', number[]>;
  };
  const [whole, tiny] = [curve(1), curve(1e-5)];
  expect(whole.lower.length).toBeGreaterThan(10);
  for (const name of ['lower', 'ratio', 'upper'] as const)
    tiny[name].forEach((value, at) => expect(value / (whole[name][at] as number)).toBeCloseTo(1, 6));
});
