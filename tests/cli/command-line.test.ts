// The whole way from files to findings, on a fleet small enough to count by hand: one tractor, new at
// 0 miles, 100 miles a day; the left seal leaks at 30,000 and is renewed at 30,100; at 60,000 all leave.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { findingSchema, type Finding } from '../../shared/finding.ts';
import { call, useFolder } from './folder-and-call.ts';

const { folder, put } = useFolder();

function writeFleet(): void {
  put(
    'units.csv',
    'unit_id,axle_roles,acquired,in_service_date,in_service_miles,out_date,out_miles\n007,steer,new,2020-01-01,0,2021-08-23,60000\n',
  );
  put(
    'services.csv',
    'service_id,unit_id,axle,side,date,miles,replaced,reason,shop\ns1,007,1,left,2020-10-28,30100,seal,failure,North\ns2,007,1,up,2020-10-28,30100,seal,failure,North\n',
  );
  put(
    'failures.csv',
    'failure_id,unit_id,axle,side,date,miles,mode,lining_contaminated,repair_service_id\nf1,007,1,left,2020-10-27,30000,seal-inner,yes,s1\n',
  );
  put('record-set.json', '{"name":"By hand","observedFrom":"2020-01-01","observedTo":"2021-12-31"}');
}

const finding = async (...parts: string[]): Promise<Finding> => {
  const { code, out, err } = await call('ask', ...parts, '--json');
  expect(code, err).toBe(0);
  return findingSchema.parse(JSON.parse(out));
};

describe('on records', () => {
  beforeEach(writeFleet);

  it('reads, with every row accounted for', async () => {
    const { code, out, err } = await call('read', folder(), '--set-aside', join(folder(), 'aside.csv'));
    expect(code).toBe(0);
    expect(out).toMatch(/services\.csv +services +2 +1 +1/);
    expect(err).toMatch(/1 of 4 rows set aside/);
    expect(readFileSync(join(folder(), 'aside.csv'), 'utf8')).toMatch(/services\.csv,3,side,up,/);
    const report = join(folder(), 'quality.html');
    expect((await call('read', folder(), '--report', report)).code).toBe(0);
    expect(readFileSync(report, 'utf8')).toContain('How full the fields are');
  });

  it('rebuilds lives and writes them in every form, which answer alike', async () => {
    const fromRecords = await finding('mean-miles', folder());
    // Three lives: left 0 to 30,000 failed, left from 30,100, right 0 to 60,000; 119,900 miles of exposure, one failure.
    expect(fromRecords.data).toMatchObject({ lives: 3, miles: 119_900 });
    expect(fromRecords.groups[0]?.estimates['meanMilesBetweenFailures']?.value).toBeCloseTo(119_900, 6);
    for (const ending of ['parquet', 'arrow', 'csv']) {
      const path = join(folder(), `lives.${ending}`);
      const { code, out } = await call('lives', folder(), '--out', path);
      expect(code).toBe(0);
      expect(out).toMatch(/failed +1 +30,000/);
      const fromLives = await finding('mean-miles', path);
      expect(fromLives.groups, ending).toEqual(fromRecords.groups);
      const life = await finding('seal-life', path);
      expect(life.groups, ending).toEqual((await finding('seal-life', folder())).groups);
    }
  });

  it('answers contamination, too few to say more than counts', async () => {
    const { groups, firmness } = await finding('contamination', folder());
    expect(firmness).toBe('too few');
    expect(groups[0]?.estimates['contaminatedPerMillionMiles']?.value).toBeCloseTo(1e6 / 119_900, 9);
  });

  it('filters and cuts', async () => {
    const right = await finding('mean-miles', folder(), '--where', 'side=right');
    expect(right.groups[0]).toMatchObject({ lives: 1, failures: 0, miles: 60_000 });
    // 0 failures: no mean, and the lower bound is T / 3.689 (NIST/SEMATECH e-Handbook 8.4.5.1; chi-square(0.975, 2) / 2 = -ln 0.025).
    expect(right.groups[0]?.estimates['meanMilesBetweenFailures']).toMatchObject({ value: null, upper: null });
    expect(right.groups[0]?.estimates['meanMilesBetweenFailures']?.lower).toBeCloseTo(60_000 / -Math.log(0.025), 6);
    expect((await finding('seal-life', folder(), '--by', 'side')).groups.map(({ label }) => label)).toEqual([
      'left',
      'right',
    ]);
  });

  it('says an answer in words with its firmness, doubts and cautions, in either unit', async () => {
    const { code, out } = await call('ask', 'seal-life', folder(), '--units', 'metric');
    expect(code).toBe(0);
    expect(out).toMatch(/Firmness: too few/);
    expect(out).toMatch(/Doubts/);
    expect(out).toMatch(/clears a wheel end for service/);
    expect(out).toMatch(/km/);
    expect((await call('ask', 'seal-life', folder(), '--table')).out.split('\n')[0]).toMatch(/lives/);
    const { err } = await call('ask', 'mean-miles', folder(), '--component', 'gasket');
    expect(err).toContain('--component is not used');
  });
});

describe('exit codes and messages', () => {
  it.each([
    [['zeal'], /no such command.*read, lives, ask, brief, demo; zeal/s],
    [['ask', 'why', '.'], /a question is one of seal-life.*; why/s],
    [['ask', 'seal-life'], /no records named/],
    [['ask', 'seal-life', '/no/such/place'], /no such file or folder/],
    [['ask', 'seal-life', '.', '--by', 'colour'], /no such column of a life.*; colour/s],
    [['ask', 'seal-life', '.', '--where', 'role'], /COLUMN=VALUE; role/],
    [['ask', 'seal-life', '.', '--horizon', 'far'], /takes a number; far/],
    [['ask', 'seal-life', '.', '--mode', 'bored'], /bored|mode/],
    [['ask', 'seal-life', '.', '--zeal'], /zeal/],
    [['lives', '.', '--out', 'lives.xls'], /ends in \.parquet, \.arrow, \.csv/],
    [['demo'], /--out names a folder/],
    [['demo', '--units', 'many', '--out', 'x'], /not a whole number/],
  ])('%j is a wrong call', async (parts, message) => {
    const { code, err } = await call(...parts);
    expect(code).toBe(2);
    expect(err).toMatch(message);
  });

  it('ends with 3 where nothing in the records can be used', async () => {
    put('services.csv', 'a,b\n1,2\n');
    const { code, err } = await call('ask', 'seal-life', folder());
    expect(code).toBe(3);
    expect(err).toMatch(/no column|nothing usable/);
  });

  it('ends with 3 where a file is no lives table', async () => {
    expect((await call('ask', 'seal-life', put('other.csv', 'a,b\n1,2\n'))).code).toBe(3);
  });

  it('writes the demo fleet into an empty folder only, the same for a seed', async () => {
    const first = join(folder(), 'a');
    const again = join(folder(), 'b');
    expect((await call('demo', '--units', '5', '--seed', '3', '--out', first)).code).toBe(0);
    expect((await call('demo', '--units', '5', '--seed', '3', '--out', again)).code).toBe(0);
    expect(existsSync(join(first, 'truth.json'))).toBe(true);
    expect(readFileSync(join(again, 'units.csv'), 'utf8')).toBe(readFileSync(join(first, 'units.csv'), 'utf8'));
    expect((await call('demo', '--out', first)).code).toBe(2);
  });

  it('writes it as five shops would export it, and reads that by the maps beside it', async () => {
    const out = join(folder(), 'messy');
    expect((await call('demo', '--messy', '--units', '30', '--out', out)).code).toBe(0);
    expect(readFileSync(join(out, 'truth-rows.csv'), 'utf8')).toMatch(/^file,sheet,row,table,id,must,code,/);
    const { code, out: read } = await call('read', out);
    expect(code).toBe(0);
    // 30 vehicles, two of them listed by both shops that had them.
    expect(read).toMatch(/fleet_list\.xlsx +units +3\d +3\d +0/);
    expect(read).toMatch(/trailer_yard\.xlsx\/Breakdowns +failures/);
  });
});
