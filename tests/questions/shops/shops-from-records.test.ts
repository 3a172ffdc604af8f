// A small fleet told by its records: who fitted, who found, who looked, and what was severe.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { ask } from '../../../lib/questions/index.ts';
import { findingSchema, type Finding } from '../../../shared/finding.ts';
import { viewSchema, type View } from '../../../shared/view.ts';
import { rebuild, type Fleet, type Row } from '../../lives/record-tables-in-engine.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const dayOf = (miles: number) => new Date(Date.UTC(2020, 0, 1) + (miles / 100) * 86_400_000).toISOString().slice(0, 10);
const at = (unit: string, miles: number, side = 'left') => ({
  unit_id: unit,
  axle: 1,
  side,
  date: dayOf(miles),
  miles,
});

const names = Array.from({ length: 24 }, (_, place) => `U${place}`);
const unit = (name: string): Row => ({
  ...{ unit_id: name, axle_roles: 'steer', acquired: 'new', in_service_date: '2020-01-01', in_service_miles: 0 },
  home_shop: 'Home',
});
const job = (id: string, unitId: string, miles: number, shop: string, more: Row = {}): Row => ({
  ...{ service_id: id, replaced: 'seal', hub_build: 'adjusted', reason: 'planned', shop, ...at(unitId, miles) },
  ...more,
});
const fail = (id: string, unitId: string, miles: number, more: Row = {}): Row => ({
  ...{ failure_id: id, mode: 'seal-inner', ...at(unitId, miles) },
  ...more,
});

/**
 * At 10,000 miles every left seal is renewed: the even units' at Fit, the odd ones' at Mend. Of the even
 * units' twelve eight leak later, of the odd ones' six, and all of these are repaired at Mend.
 */
const fleet: Fleet = {
  units: names.map(unit),
  readings: names.flatMap((name) => [
    { unit_id: name, date: dayOf(0), miles: 0 },
    { unit_id: name, date: dayOf(100_000), miles: 100_000 },
  ]),
  services: names.flatMap((name, place) => [
    job(`S${place}`, name, 10_000, place % 2 === 0 ? 'Fit' : 'Mend'),
    ...(leaks(place) ? [job(`R${place}`, name, 20_100 + 500 * place, 'Mend', { reason: 'failure' })] : []),
  ]),
  failures: [
    ...names.flatMap((name, place) => (leaks(place) ? [fail(`F${place}`, name, 20_000 + 500 * place)] : [])),
    fail('H1', 'U21', 50_000, { mode: 'hot-hub', out_of_service: 'yes' }),
    fail('W1', 'U23', 60_000, { mode: 'wheel-lost', wheel_lost: 'yes', wheel_lost_by: 'bearing' }),
    fail('W2', 'U19', 70_000, { mode: 'wheel-lost', wheel_lost: 'yes', wheel_lost_by: 'fastener' }),
    fail('O1', 'U18', 80_000, { mode: 'lubricant-low', out_of_service: 'yes', side: 'right' }),
    fail('N1', 'U17', 80_000, { mode: 'lubricant-low', out_of_service: 'no' }),
  ],
  inspections: [10, 20, 30, 40, 50, 60, 70].flatMap((thousand) =>
    names.flatMap((name, place) =>
      place % 2 === 0 || thousand === 40
        ? [{ inspection_id: `I${place}-${thousand}`, checked: 'yes', leak: 0, ...at(name, thousand * 1000 + 500) }]
        : [],
    ),
  ),
};

function leaks(place: number): boolean {
  return place % 2 === 0 ? place < 16 : place < 12;
}

async function answer(view: Partial<View> = {}): Promise<Finding> {
  const source = await rebuild(engine, fleet, { from: '2020-01-01', to: '2029-12-31' });
  return findingSchema.parse(await ask(source, 'shops', viewSchema.parse(view)));
}
const failures = ({ groups }: Finding) => Object.fromEntries(groups.map(({ label, failures: seen }) => [label, seen]));
const doubtOf = ({ doubts }: Finding, name: string) => doubts.find((doubt) => doubt.name === name);

describe('who fitted and who found', () => {
  test('a failure counts for the shop that fitted, wherever it was repaired', async () => {
    const finding = await answer();
    expect(failures(finding)).toEqual({ Fit: 8, Mend: 6 });
    // Fourteen failures repaired at Mend, of which it fitted six.
    expect(doubtOf(finding, 'Fitted here, found there')).toMatchObject({ state: 'holds' });
    expect(doubtOf(finding, 'Fitted here, found there')?.detail).toContain('57\u00a0%');
  });

  test('by the shop that found they are all of Mend, and that is warned of', async () => {
    const finding = await answer({ attribution: 'finding' });
    expect(failures(finding)['Mend']).toBe(14);
    const doubt = doubtOf(finding, 'Fitted here, found there');
    expect(doubt?.state).toBe('fails');
    expect(doubt?.detail).toContain('nothing of how that shop fits');
    // Lives that still run stand at the vehicles' home shop, the repairs at Mend among them.
    expect(finding.groups.find(({ label }) => label === 'Home')?.lives).toBe(10 + 14);
  });
});

describe('who is looked at', () => {
  test('checks are counted by the miles that the lives of each shop ran', async () => {
    const doubt = doubtOf(await answer(), 'Looked at alike');
    expect(doubt?.state).toBe('fails');
    // Seals fitted at 10,000 run to their leak or to 100,000; those that Mend fits after a leak from there on.
    const until = (place: number) => (leaks(place) ? 20_000 + 500 * place : 100_000);
    const places = names.map((_, place) => place);
    const first = places.map((place) => ({ place, from: 10_000, to: until(place) }));
    const then = places.filter(leaks).map((place) => ({ place, from: until(place) + 100, to: 100_000 }));
    const rate = (lives: typeof first) => {
      const checks = lives.flatMap(({ place, from, to }) =>
        [10, 20, 30, 40, 50, 60, 70]
          .filter((thousand) => place % 2 === 0 || thousand === 40)
          .filter((thousand) => thousand * 1000 + 500 > from && thousand * 1000 + 500 <= to),
      );
      const miles = lives.reduce((sum, { from, to }) => sum + to - from, 0);
      return ((checks.length / miles) * 100_000).toPrecision(2);
    };
    const fit = rate(first.filter(({ place }) => place % 2 === 0));
    const mend = rate([...first.filter(({ place }) => place % 2 === 1), ...then]);
    expect(doubt?.detail).toContain(`“Fit” are checked ${fit} times`);
    expect(doubt?.detail).toContain(`“Mend” ${mend} times`);
  });
});

describe('severe events', () => {
  test('each is listed with who fitted, fasteners left out', async () => {
    const { severeEvents } = await answer();
    expect(severeEvents?.map(({ failureId }) => failureId)).toEqual(['H1', 'W1', 'O1']);
    expect(severeEvents?.[0]).toEqual({
      ...{ kinds: ['hot-hub', 'out-of-service'], group: 'Mend', unitId: 'U21', position: '1 left' },
      ...{ date: dayOf(50_000), mode: 'hot-hub', lostBy: null, failureId: 'H1', milesSinceFitted: 40_000 },
    });
    expect(severeEvents?.[1]).toMatchObject({ kinds: ['wheel-lost'], lostBy: 'bearing', milesSinceFitted: 50_000 });
    // The right seal came with the vehicle.
    expect(severeEvents?.[2]).toMatchObject({ group: 'unknown', position: '1 right', milesSinceFitted: 80_000 });
  });

  test('a filter keeps those of the lives it chooses', async () => {
    const { severeEvents } = await answer({ where: { shop: ['Mend'] } });
    expect(severeEvents?.map(({ failureId }) => failureId)).toEqual(['H1', 'W1']);
  });
});
