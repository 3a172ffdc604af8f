// A wheel end worked by hand: fitted at 0, failed at 30,000, repaired at 31,000, renewed at 60,000, running at 100,000.
import { describe, expect, test } from 'vitest';
import { lifeStrip, stripDescription, stripSpan, stripTicks } from '../../lib/charts/index.ts';
import { stripMargin } from '../../lib/charts/life-strip.ts';
import type { HistoryEvent, LivedStretch, WheelEndHistory } from '../../shared/life-history.ts';
import { lifeStates } from '../../shared/vocabulary.ts';
import { kilometresPerMile } from '../../shared/units.ts';

const life = (number: number, fromMiles: number, toMiles: number, more: Partial<LivedStretch> = {}): LivedStretch => ({
  ...{ lifeId: `007 1 left seal ${number}`, state: 'planned', mode: null, fromMiles, toMiles },
  ...{ installMiles: fromMiles, inferredEnd: false },
  ...more,
});
const event = (table: HistoryEvent['table'], miles: number, more: Partial<HistoryEvent> = {}): HistoryEvent => ({
  ...{ table, id: `${table[0]}${miles}`, miles, day: '2021-01-01', quality: 'measured', what: null, why: null },
  ...{ leak: null, counts: false },
  ...more,
});

const history: WheelEndHistory = {
  ...{ unitId: '007', axle: 1, side: 'left', role: 'steer', watchedFrom: 0, watchedTo: 100_000 },
  lives: [
    life(1, 0, 30_000, { state: 'failed', mode: 'seal-inner' }),
    life(2, 31_000, 60_000),
    life(3, 60_000, 100_000, { state: 'running' }),
  ],
  waits: [{ fromMiles: 30_000, toMiles: 31_000 }],
  events: [
    event('inspections', 10_000, { leak: 0, counts: true }),
    event('inspections', 20_000, { leak: 1, counts: true }),
    event('inspections', 25_000, { leak: 3, counts: true }),
    event('inspections', 26_000),
    event('failures', 30_000, { what: 'seal-inner', counts: true }),
    event('failures', 30_500, { what: 'seal-inner', counts: true }),
    event('services', 31_000, { what: 'seal', counts: true }),
    event('services', 45_000, { what: 'hubcap' }),
    event('failures', 50_000, { what: 'vent' }),
    event('failures', 140_000, { what: 'vent' }),
  ],
};
const options = { width: 1024, span: stripSpan([history]), unitSystem: 'us' } as const;
/** From edge to edge lie 100,000 miles on 1,000 pixels. */
const at = (miles: number) => stripMargin + miles / 100;

describe('a strip', () => {
  const strip = lifeStrip(history, options);

  test('lays lives and waits out along the miles', () => {
    expect(strip.lives.map(({ x1, x2 }) => [x1, x2])).toEqual([
      [at(0), at(30_000)],
      [at(31_000), at(60_000)],
      [at(60_000), at(100_000)],
    ]);
    expect(strip.waits).toEqual([{ x1: at(30_000), x2: at(31_000) }]);
  });

  test('tells failed from censored ends by shape and by label', () => {
    expect(strip.lives.map(({ end, label }) => [end, label?.text])).toEqual([
      ['failed', 'failed: seal-inner'],
      ['renewed', 'renewed'],
      ['running', 'running'],
    ]);
    const shapes = lifeStates.map(
      (state) => lifeStrip({ ...history, lives: [life(1, 0, 50_000, { state })] }, options).lives[0]?.end,
    );
    expect(new Set(shapes).size).toBe(lifeStates.length);
  });

  test('marks checks, leaks, other work and other failures, and no end twice', () => {
    expect(strip.marks.map(({ kind, x }) => [kind, x])).toEqual([
      ['dry', at(10_000)],
      ['damp', at(20_000)],
      ['leak', at(25_000)],
      ['report', at(30_500)],
      ['service', at(45_000)],
      ['other-failure', at(50_000)],
    ]);
  });

  test('begins a life with a bar only where it is known that the part was fitted there', () => {
    const unknown = { ...history, lives: [life(1, 0, 9_000, { installMiles: null }), life(2, 9_000, 99_000)] };
    expect(lifeStrip(unknown, options).lives.map(({ fitted }) => fitted)).toEqual([false, true]);
    const before = { ...history, lives: [life(1, 20_000, 90_000, { installMiles: 5_000 })] };
    expect(lifeStrip(before, options).lives[0]?.fitted).toBe(false);
  });

  test('never lets two labels touch, nor one leave the strip', () => {
    const crowded = {
      ...history,
      lives: Array.from({ length: 40 }, (_, place) => life(place + 1, place * 2_500, (place + 1) * 2_500)),
    };
    for (const width of [300, 700, 1100]) {
      const labels = lifeStrip(crowded, { ...options, width }).lives.flatMap(({ label }) => label ?? []);
      expect(labels.length).toBeGreaterThan(1);
      labels.slice(1).forEach(({ x }, place) => expect(x - (labels[place]?.x ?? 0)).toBeGreaterThan(40));
      for (const { x } of labels) expect(x).toBeGreaterThanOrEqual(0);
    }
  });

  test('says itself as a sentence', () => {
    expect(stripDescription(history, 'us')).toBe(
      'life 1: 0 mi to 30,000 mi, failed: seal-inner; life 2: 31,000 mi to 60,000 mi, renewed; life 3: 60,000 mi to 100,000 mi, running; 1 wait for repair; 3 checks.',
    );
  });
});

test('ticks stand at round odometer readings of the reader’s unit', () => {
  expect(stripTicks({ ...options, width: 524 }).map(({ x, text }) => [Math.round(x), text])).toEqual([
    [12, '0'],
    [112, '20,000'],
    [212, '40,000'],
    [312, '60,000'],
    [412, '80,000'],
    [512, '100,000 mi'],
  ]);
  const metric = stripTicks({ ...options, unitSystem: 'metric' });
  const [, first] = metric;
  expect(first?.text).toBe('20,000');
  expect(first?.x).toBeCloseTo(stripMargin + 20_000 / kilometresPerMile / 100, 6);
});

test('a span of nothing is still a span', () => {
  expect(stripSpan([])).toEqual({ from: 0, to: 1 });
  expect(lifeStrip({ ...history, lives: [], waits: [], events: [] }, options)).toEqual({
    lives: [],
    waits: [],
    marks: [],
  });
});
