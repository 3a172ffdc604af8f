// Why a life ended, and what would have altered it, held to the rebuild itself: each claim is tried out.
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import type { LifeFacts } from '../../lib/lives/life-facts.ts';
import { readLifeFacts } from '../../lib/lives/read-life-facts.ts';
import { whyBegan } from '../../lib/lives/why-began.ts';
import { whyEnded } from '../../lib/lives/why-ended.ts';
import type { RecordChange } from '../../lib/lives/why-ended-altered.ts';
import { renewalState, stateWithoutFailure } from '../../lib/lives/why-ended-state.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import { arbitraryFleet, arbitraryWindow } from './arbitrary-fleet.ts';
import { rebuild, rowsOf, type Fleet, type Row } from './record-tables-in-engine.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

type Window = { from?: string; to?: string };
const miles = (value: number) => `${Math.round(value).toLocaleString('en-US')} mi`;

async function rebuilt(fleet: Fleet, window: Window, component: Component): Promise<void> {
  await (await rebuild(engine, fleet, window)).ensure(component);
}

async function factsOf(component: Component, lifeId: string): Promise<LifeFacts> {
  const facts = await readLifeFacts(engine, component, lifeId);
  if (facts === null) throw new Error(`no facts of ${lifeId}`);
  return facts;
}

async function allFacts(component: Component): Promise<LifeFacts[]> {
  const ids = await rowsOf(engine, `select life_id from lives_${component} order by life_id`);
  const facts: LifeFacts[] = [];
  for (const { life_id } of ids) facts.push(await factsOf(component, String(life_id)));
  return facts;
}

const idOf = { services: 'service_id', failures: 'failure_id', units: 'unit_id' } as const;

/** The records with one row written otherwise. */
function changed(fleet: Fleet, { table, id, cells }: RecordChange): Fleet {
  const name = idOf[table as keyof typeof idOf];
  const rows = fleet[table] ?? [];
  expect(rows.some((row) => row[name] === id)).toBe(true);
  return {
    ...fleet,
    [table]: rows.flatMap((row): Row[] => (row[name] !== id ? [row] : cells === null ? [] : [{ ...row, ...cells }])),
  };
}

/** Declared, so that a row taken away does not move the window along with it. */
const declared = async (): Promise<Window> => {
  const [window] = await rowsOf(
    engine,
    'select cast(observed_from as varchar) as "from", cast(observed_to as varchar) as "to" from observation',
  );
  return window?.['from'] === null ? {} : { from: String(window?.['from']), to: String(window?.['to']) };
};

const runs = Number(process.env['HUBCAUSE_LAW_RUNS'] ?? 10);

describe('any records', () => {
  const component = fc.constantFrom(...(Object.keys(components) as Component[]));

  it('give every life an end by the rule that the rebuild went by', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryFleet, arbitraryWindow, component, async (fleet, window, asked) => {
        await rebuilt(fleet, window, asked);
        for (const facts of await allFacts(asked)) {
          if (facts.next !== null) expect(renewalState(asked, facts.next)).toBe(facts.next.state);
          const state = facts.failure === null ? stateWithoutFailure(facts) : 'failed';
          expect([facts.lifeId, state]).toEqual([facts.lifeId, facts.state]);
          expect(whyEnded(facts, miles).says).toMatch(/\S\.$/);
          expect(whyBegan(facts, miles)).toMatch(/\S\.$/);
        }
      }),
      { numRuns: runs },
    );
  }, 300_000);

  it('end a life as it is said they would, had one row been written otherwise', async () => {
    let tried = 0;
    await fc.assert(
      fc.asyncProperty(arbitraryFleet, arbitraryWindow, component, fc.nat(), async (fleet, given, asked, from) => {
        await rebuilt(fleet, given, asked);
        const window = await declared();
        await rebuilt(fleet, window, asked);
        const claims = (await allFacts(asked)).flatMap((facts) =>
          whyEnded(facts, miles).altered.map((altered) => ({ facts, altered })),
        );
        for (let place = 0; place < Math.min(3, claims.length); place++) {
          const claim = claims[(from + place * 7) % claims.length];
          if (claim === undefined) continue;
          const { facts, altered } = claim;
          await rebuilt(changed(fleet, altered.change), window, asked);
          const [life] = await rowsOf(engine, `select state from lives_${asked} where life_id = '${facts.lifeId}'`);
          expect([altered.had, life?.['state']]).toEqual([altered.had, altered.becomes]);
          tried++;
        }
      }),
      { numRuns: runs },
    );
    expect(tried).toBeGreaterThan(runs / 2);
  }, 600_000);
});

// By hand: one tractor with one steer axle, new at 0 miles on 2020-01-01, 100 miles a day.
const dayOf = (at: number) => new Date(Date.UTC(2020, 0, 1) + (at / 100) * 86_400_000).toISOString().slice(0, 10);
const on = (at: number, side = 'left') => ({ unit_id: '007', axle: 1, side, date: dayOf(at), miles: at });
const job = (id: string, at: number, more: Row = {}): Row => ({
  ...{ service_id: id, ...on(at), replaced: 'seal', hub_build: 'adjusted', reason: 'planned' },
  ...more,
});
const leak = (id: string, at: number, more: Row = {}): Row => ({
  ...{ failure_id: id, ...on(at), mode: 'seal-inner' },
  ...more,
});
const units: Row[] = [
  { unit_id: '007', axle_roles: 'steer', acquired: 'new', in_service_date: '2020-01-01', in_service_miles: 0 },
];
const readings = [0, 100_000].map((at) => ({ unit_id: '007', date: dayOf(at), miles: at }));

async function firstLife(fleet: Fleet, component: Component = 'seal') {
  await rebuilt({ units, readings, ...fleet }, { from: '2020-01-01', to: '2029-12-31' }, component);
  const facts = await factsOf(component, `007 1 left ${component} 1`);
  return { facts, ...whyEnded(facts, miles) };
}

const had = (altered: readonly { had: string; becomes: string }[]) =>
  altered.map((each) => `${each.had}: ${each.becomes}`);

describe('by hand', () => {
  test('a failure row, repaired 400 miles later', async () => {
    const why = await firstLife({
      failures: [leak('F1', 30_000)],
      services: [job('S1', 30_400, { reason: 'failure' })],
    });
    expect(why.rule).toBe('failure-row');
    expect(why.says).toBe(
      'Failure F1 says “seal-inner” on 2020-10-27 at 30,000 mi: the first seal failure after this installation. The life failed at the miles it was found. The 400 mi from there to the renewal (service S1, 2020-10-31) belong to no life.',
    );
    // Without the row the repair's own reason would still say that the seal failed; a vent repaired by it would not.
    expect(had(why.altered)).toEqual([
      'Had failure F1 not been written down: failed',
      'Had failure F1 been of another component, such as a blocked vent: other-failure',
    ]);
    expect(whyBegan(why.facts, miles)).toBe('It came with vehicle 007, new on 2020-01-01 at 0 mi.');
  });

  test('further reports of one episode count once', async () => {
    const why = await firstLife({ failures: [leak('F1', 30_000), leak('F2', 30_100)], services: [job('S1', 30_400)] });
    expect(why.says).toMatch(/1 further report before the next renewal, of the same episode, counts? once/);
    expect(why.altered).toEqual([]);
  });

  test('planned work', async () => {
    const why = await firstLife({ services: [job('S1', 40_000)] });
    expect([why.rule, why.says]).toEqual([
      'planned',
      'Service S1 renewed the seal on 2021-02-04 at 40,000 mi, and no seal failure is written down before it; its reason is “planned”. The life is censored there.',
    ]);
    expect(had(why.altered)).toEqual([
      'Had service S1 given a failure as its reason: failed',
      'Had service S1 given nothing as its reason: removed-unknown',
    ]);
  });

  test('a failing reason without a failure row', async () => {
    const why = await firstLife({ services: [job('S1', 40_000, { reason: 'comeback' })] });
    expect(why.rule).toBe('failed-unwritten');
    expect(had(why.altered)).toEqual([
      'Had service S1 given planned work as its reason: planned',
      'Had service S1 given nothing as its reason: removed-unknown',
      'Had service S1 listed bearings too among the parts replaced: other-failure',
    ]);
  });

  test('another component that failed, by its row and by the parts replaced', async () => {
    const row = await firstLife({
      failures: [leak('F1', 40_000, { mode: 'hot-hub' })],
      services: [job('S1', 40_000, { replaced: 'seal;bearings', reason: 'failure' })],
    });
    expect([row.rule, row.facts.state]).toEqual(['other-failed', 'other-failure']);
    expect(row.says).toMatch(/It repaired failure F1 \(“hot-hub”\)/);
    const parts = await firstLife({ services: [job('S1', 40_000, { replaced: 'seal;bearings', reason: 'failure' })] });
    expect(parts.rule).toBe('other-by-parts');
    expect(had(parts.altered)).toContain(
      'Had service S1 listed neither bearings nor hub among the parts replaced: failed',
    );
  });

  test('the mate that failed, by its row and by its order', async () => {
    const byRow = await firstLife({
      failures: [leak('F9', 40_000, { side: 'right' })],
      services: [job('S1', 40_000, { reason: null }), job('S2', 40_000, { side: 'right', reason: null })],
    });
    expect([byRow.rule, byRow.facts.state]).toEqual(['mate-failed', 'planned']);
    expect(had(byRow.altered)[0]).toBe('Had failure F9 not been written down: removed-unknown');
    const byOrder = await firstLife({
      services: [job('S1', 40_000, { reason: null }), job('S2', 40_000, { side: 'right', reason: 'failure' })],
    });
    expect([byOrder.rule, byOrder.facts.state]).toEqual(['mate-ordered', 'planned']);
    expect(had(byOrder.altered)[0]).toBe('Had service S2, across the axle, been planned work: removed-unknown');
  });

  test('a reason not told, a vehicle that left, and one still running', async () => {
    const blank = await firstLife({ services: [job('S1', 40_000, { reason: 'other' })] });
    expect([blank.rule, blank.facts.state]).toEqual(['not-told', 'removed-unknown']);
    const left = await firstLife({ units: [{ ...units[0], out_date: dayOf(60_000), out_miles: 60_000 }] });
    expect(left.says).toBe(
      'Vehicle 007 left the fleet on 2021-08-23 at 60,000 mi with this part on it: the life is censored there.',
    );
    expect(had(left.altered)).toEqual(['Had vehicle 007 not left the fleet: running']);
    const running = await firstLife({});
    expect(running.says).toMatch(/running to the last known miles of the vehicle, 100,000 mi on 2022-09-27/);
    expect(running.altered).toEqual([]);
  });

  test('a part of unknown start, one inferred, and one watched late', async () => {
    const used = await firstLife({ units: [{ ...units[0], acquired: 'used' }] });
    expect(whyBegan(used.facts, miles)).toMatch(/When it was fitted is not known/);
    await rebuilt(
      { units, readings, services: [job('S1', 20_000, { replaced: 'bearings' })] },
      { from: dayOf(30_000), to: '2029-12-31' },
      'seal',
    );
    const second = await factsOf('seal', '007 1 left seal 2');
    expect(whyBegan(second, miles)).toBe(
      'Service S1 on 2020-07-19 at 20,000 mi took the hub off, and the procedure valid then renews the seal whenever it comes off: so it was renewed, though the row does not list it. It was 10,000 mi old, at 30,000 mi, when it was first watched (the window begins on 2020-10-27).',
    );
  });
});
