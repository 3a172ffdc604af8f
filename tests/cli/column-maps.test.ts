// One shop's list of work orders, its headers, units, days and words its own: proposed, saved, read again.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { columnMapSchema } from '../../shared/column-map.ts';
import { call, useFolder } from './folder-and-call.ts';

const { folder, put } = useFolder();

const units = 'unit_id,axle_roles,acquired,in_service_date,in_service_miles\n0412,steer drive drive,new,2020-01-01,0\n';
const jobs = (odometer = 'Odometer (km)') =>
  `WO;Unit;Wheel;Date Done;${odometer};Parts\n` +
  '1;0412;LF;25.03.2020;10.000,5;wheel seal\n' +
  '2;0412;2nd drive RH;01.04.2021;160.934,4;wheel seal, brg set\n' +
  '3;0412;RR;02.04.2021;160.934,4;wheel seal\n';

it('a map is proposed, written down, and reads the file from then on', async () => {
  put('units.csv', units);
  put('north jobs.csv', jobs());
  const map = join(folder(), 'north.json');

  const before = await call('read', folder());
  expect(before.err).toContain('goes by no table');
  expect(before.err).toContain('--propose-map');
  expect(before.code).toBe(3);

  const proposed = await call('read', folder(), '--propose-map', map);
  expect(proposed.code).toBe(0);
  expect(proposed.out).toMatch(/services\.miles +Odometer \(km\) +km/);
  expect(proposed.out).toContain('may be more than one wheel end');
  const saved = columnMapSchema.parse(JSON.parse(readFileSync(map, 'utf8')));
  expect([saved.dates.order, saved.numbers.decimal]).toEqual(['dmy', 'comma']);

  const read = await call('read', folder(), '--map', map, '--set-aside', join(folder(), 'aside.csv'));
  expect(read.code).toBe(0);
  expect(read.out).toMatch(/north jobs\.csv +services +3 +2 +1/);
  const aside = readFileSync(join(folder(), 'aside.csv'), 'utf8');
  expect(aside).toContain('Wheel,RR,"is ambiguous: it could be axle 2 right or axle 3 left or axle 3 right');

  const rules = [{ spelling: 'RR', roles: 'steer drive drive', axle: 3, side: 'right' }];
  put('north.json', JSON.stringify({ ...saved, positions: { rules } }));
  expect((await call('read', folder())).out).toMatch(/north jobs\.csv +services +3 +3 +0/);
  const lives = join(folder(), 'lives.csv');
  expect((await call('lives', folder(), '--map', map, '--out', lives)).code).toBe(0);
  // 160,934.4 km are 100,000 miles: 1 mi = 1.609344 km exactly (NIST SP 811, appendix B.8).
  expect(readFileSync(lives, 'utf8')).toMatch(/,0412,100000[.,]/);
  expect((await call('ask', 'seal-life', folder(), '--map', map)).code).toBe(0);
});

describe('a map', () => {
  it('names the columns that a renamed file lacks, and those that are new', async () => {
    put('units.csv', units);
    const file = put('north jobs.csv', jobs());
    const map = join(folder(), 'north.json');
    await call('read', folder(), '--propose-map', map);
    writeFileSync(file, jobs('Tacho'));
    const { err } = await call('read', folder(), '--map', map);
    expect(err).toContain('reads columns that are not there: Odometer (km); new in it: Tacho');
  });

  it.each([
    ['{', 'is no JSON'],
    ['{"version":2,"recognised":{}}', 'is a column map of version 2; version 1 is read here'],
    ['{"version":1}', 'is no column map'],
    ['3', 'is no column map'],
  ])('that is %s is refused with the reason', async (text, why) => {
    put('units.csv', units);
    const { code, err } = await call('read', folder(), '--map', put('map.txt', text));
    expect(code).toBe(2);
    expect(err).toContain(why);
  });
});
