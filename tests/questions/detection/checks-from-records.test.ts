// Small fleets told by their records: which checks say what, and which removals other rules read otherwise.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { ask } from '../../../lib/questions/index.ts';
import { findingSchema, type Finding, type QuestionId } from '../../../shared/finding.ts';
import { viewSchema } from '../../../shared/view.ts';
import { rebuild, type Fleet, type Row } from '../../lives/record-tables-in-engine.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const dayOf = (miles: number) => new Date(Date.UTC(2020, 0, 1) + (miles / 100) * 86_400_000).toISOString().slice(0, 10);
const at = (unit: string, miles: number, side = 'left'): Row => ({
  ...{ unit_id: unit, axle: 1, side, date: dayOf(miles), miles },
});
const job = (unit: string, miles: number, more: Row = {}): Row => ({
  ...{ service_id: `S ${unit} ${miles} left`, replaced: 'seal', hub_build: 'adjusted', lubricant: 'oil' },
  ...{ reason: 'planned', shop: 'Fit', ...at(unit, miles), ...more },
});
const look = (unit: string, miles: number, leak: number, more: Row = {}): Row => ({
  ...{ inspection_id: `I ${unit} ${miles} ${leak}`, checked: 'yes', leak, ...at(unit, miles), ...more },
});
const fail = (unit: string, miles: number, side = 'left'): Row => ({
  ...{ failure_id: `F ${unit} ${miles}`, mode: 'seal-inner', ...at(unit, miles, side) },
});
const unitsOf = (names: readonly string[]): Pick<Fleet, 'units' | 'readings'> => ({
  units: names.map((name) => ({
    ...{ unit_id: name, axle_roles: 'steer', acquired: 'new', in_service_date: '2020-01-01', in_service_miles: 0 },
  })),
  readings: names.flatMap((name) => [0, 100_000].map((miles) => ({ unit_id: name, date: dayOf(miles), miles }))),
});

async function answer(fleet: Fleet, question: QuestionId): Promise<Finding> {
  const source = await rebuild(engine, fleet, { from: '2020-01-01', to: dayOf(100_000) });
  return findingSchema.parse(await ask(source, question, viewSchema.parse({})));
}

test('checks before a leak was seen are dry ones, those after it see it or miss it, others say nothing', async () => {
  const names = Array.from({ length: 60 }, (_, place) => `U${place}`);
  const leaks = (place: number) => place < 20;
  const finding = await answer(
    {
      ...unitsOf(names),
      services: names.map((name) => job(name, 10_000)),
      // Leaking: dry at 20 and 30, damp at 40, missed at 50, wet at 60, reported at 65 thousand miles.
      failures: names.flatMap((name, place) => (leaks(place) ? [fail(name, 65_000)] : [])),
      inspections: names.flatMap((name, place) => [
        ...(leaks(place)
          ? [look(name, 20_000, 0), look(name, 30_000, 0), look(name, 40_000, 1), look(name, 50_000, 0)]
          : [20, 30, 40, 50, 60, 70, 80, 90].map((thousand) => look(name, thousand * 1000, 0))),
        ...(leaks(place) ? [look(name, 60_000, 2)] : []),
        // A leak at the hubcap, a wheel end not looked at, no grade.
        look(name, 25_000, 2, { leak_at: 'hubcap' }),
        look(name, 26_000, 0, { checked: 'no', inspection_id: `N ${name}` }),
      ]),
    },
    'detection',
  );
  const oil = finding.groups.find(({ label }) => label === 'oil');
  expect(oil).toMatchObject({ lives: 60, failures: 20 });
  expect(oil?.counts).toMatchObject({ checks: 20 * 5 + 40 * 8, seenAgain: 20, missedAgain: 20 });
  // The last dry check before finding is the one at 50,000 that missed it: onset within the last 15,000 miles.
  const begun = finding.series.find(({ name, group }) => name === 'begun' && group === 'oil');
  expect(begun?.columns['from']?.[0]).toBe(40_000);
  expect(begun?.columns['to']?.[0]).toBe(55_000);
});

describe('rules that records alone can tell', () => {
  const names = Array.from({ length: 20 }, (_, place) => `U${place}`);
  let finding: Finding;
  beforeAll(async () => {
    finding = await answer(
      {
        ...unitsOf(names),
        services: [
          // Five removed as planned after a check saw a leak; three renewed along with their failed mate.
          ...names.slice(0, 5).map((name) => job(name, 50_000)),
          ...names.slice(5, 8).flatMap((name) => [
            job(name, 50_000, { order_id: `O ${name}` }),
            job(name, 50_000, {
              service_id: `S ${name} right`,
              side: 'right',
              reason: 'failure',
              order_id: `O ${name}`,
            }),
          ]),
        ],
        failures: names.slice(5, 8).map((name) => fail(name, 50_000, 'right')),
        inspections: names.slice(0, 5).map((name) => look(name, 40_000, 1)),
      },
      'rules',
    );
  });
  const under = (rule: string) => finding.groups.find(({ label }) => label.startsWith(rule));

  // Forty first seals, and eleven that follow: of eight left ends and of three right ones.
  test('as read', () => expect(under('as the records')).toMatchObject({ lives: 51, failures: 3 }));
  test('planned removals after a leak', () =>
    expect(under('planned removals')).toMatchObject({ lives: 51, failures: 8 }));
  test('renewals with a failed mate', () =>
    expect(under('renewals with a failed mate')).toMatchObject({ lives: 48, failures: 3 }));
});
