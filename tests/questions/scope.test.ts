import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { fleet, many, type Life } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const groups = async (lives: readonly Life[], view: Partial<View>) =>
  (await ask(await fleet(engine, lives), 'mean-miles', viewSchema.parse(view))).groups;
const labels = async (lives: readonly Life[], ...by: string[]) =>
  (await groups(lives, { by })).map(({ label }) => label);
const livesIn = async (lives: readonly Life[], view: Partial<View>) =>
  (await groups(lives, view)).reduce((sum, group) => sum + group.lives, 0);

const of = (column: string, ...values: (string | number | null)[]): Life[] =>
  values.map((value, place) => ({ life_id: `L${place}`, unit_id: `U${place}`, exit_miles: 1000, [column]: value }));

test('groups stand in their natural order, what is not known last', async () => {
  expect(await labels(of('role', 'trailer', null, 'lift', 'steer', 'drive'), 'role')).toEqual([
    'steer',
    'drive',
    'lift',
    'trailer',
    'unknown',
  ]);
  expect(await labels(of('life_number', 10, 2, 1, null), 'life_number')).toEqual(['1', '2', '10', 'unknown']);
  expect(await labels(of('dev_underfilled', 'unknown', 'no', 'yes'), 'dev_underfilled')).toEqual([
    'yes',
    'no',
    'unknown',
  ]);
});

test('other groups stand by size, equal ones by name', async () => {
  expect(await labels(of('duty', 'b', 'c', 'c', 'a', null, null, null), 'duty')).toEqual(['c', 'a', 'b', 'unknown']);
});

test('two cuts keep the groups of the first together', async () => {
  const lives = of('duty', 'x', 'y', 'y', 'x', 'y').map((life, place) => ({
    ...life,
    side: place % 2 ? 'left' : 'right',
  }));
  expect(await labels(lives, 'duty', 'side')).toEqual(['y · left', 'y · right', 'x · left', 'x · right']);
});

test('positions stand axle by axle, left before right', async () => {
  const lives = of('side', 'right', 'left', 'right').map((life, place) => ({ ...life, axle: place < 2 ? 2 : 1 }));
  expect(await labels(lives, 'position')).toEqual(['1 right', '2 left', '2 right']);
});

test('a filter keeps either of several values, and unknown is a value to ask for', async () => {
  const lives = of('lubricant', 'oil', 'packed', 'semi-fluid', null, 'oil');
  expect(await livesIn(lives, { where: { lubricant: ['oil', 'packed'] } })).toBe(3);
  expect(await livesIn(lives, { where: { lubricant: ['unknown'] } })).toBe(1);
  expect(await livesIn(lives, { where: { lubricant: ['oil'], axle: ['2'] } })).toBe(0);
  expect(await livesIn(lives, { where: { lubricant: ["oil' or 1=1 --"] } })).toBe(0);
});

test('dates of installation are inclusive, and a life without one is outside any', async () => {
  const lives = of('install_date', '2020-01-01', '2020-06-30', '2020-07-01', null);
  expect(await livesIn(lives, { installedFrom: '2020-01-01', installedTo: '2020-06-30' })).toBe(2);
  expect(await livesIn(lives, { installedFrom: '2020-07-01' })).toBe(1);
  expect(await livesIn(lives, {})).toBe(4);
  expect(await labels(lives, 'install_year')).toEqual(['2020', 'unknown']);
});

test('beyond 200 groups the smallest are left out, counted and said', async () => {
  const lives = many(410, (place) => ({ exit_miles: 1000, unit_id: `U${place % 205}` }));
  const finding = await ask(await fleet(engine, lives), 'mean-miles', viewSchema.parse({ by: ['unit_id'] }));
  expect(finding.groups.length).toBe(200);
  expect(finding.doubts.find(({ name }) => name === 'Left out')?.detail).toBe(
    '5 smallest groups with 10 lives are not in the table.',
  );
});

test('a source asked again after another was opened answers of its own lives', async () => {
  const first = await fleet(engine, of('role', 'steer'));
  const view = viewSchema.parse({ by: ['role'] });
  await ask(first, 'mean-miles', view);
  const second = await fleet(engine, of('role', 'drive', 'drive'));
  expect((await ask(second, 'mean-miles', view)).groups.map(({ label }) => label)).toEqual(['drive']);
});
