// Laws that hold for any records (record contract, 5.11 and the design's property tests).
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import { arbitraryFleet, arbitraryWindow } from './arbitrary-fleet.ts';
import { rebuild, rowsOf, type Fleet } from './record-tables-in-engine.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const componentNames = Object.keys(components) as Component[];
/** A rebuild is some sixty statements; their planning, not the rows, is what takes time here. */
const patience = 300_000;
const runs = Number(process.env['HUBCAUSE_LAW_RUNS'] ?? 12);

async function rebuilt(
  fleet: Fleet,
  window: { from?: string; to?: string },
  asked: readonly Component[] = componentNames,
) {
  const source = await rebuild(engine, fleet, window);
  for (const component of asked) await source.ensure(component);
}

const lives = (component: Component) =>
  `select * replace (cast(install_date as varchar) as install_date) from lives_${component} order by life_id`;

describe('any records', () => {
  it(
    'share the miles run in the window among lives, after-failure miles and nothing else',
    async () => {
      await fc.assert(
        fc.asyncProperty(
          arbitraryFleet,
          arbitraryWindow,
          fc.constantFrom(...componentNames),
          async (fleet, window, component) => {
            await rebuilt(fleet, window, [component]);
            const off = await rowsOf(
              engine,
              `with ran as (select wheel_end, greatest(to_miles - from_miles, 0) as miles from work_wheel_ends join work_unit_spans using (unit_id)),
            lived as (select wheel_end, sum(exposure_miles) as miles, cast(count(*) filter (exposure_miles = 1) as double) as single from lives_${component} group by all),
            waited as (select wheel_end, sum(to_miles - from_miles) as miles from after_failure_${component} group by all)
          select wheel_end, ran.miles as ran, coalesce(lived.miles, 0) + coalesce(waited.miles, 0) as shared from ran left join lived using (wheel_end) left join waited using (wheel_end)
          where abs(ran.miles - coalesce(lived.miles, 0) - coalesce(waited.miles, 0)) > 1e-6 + coalesce(lived.single, 0)`,
            );
            expect(off).toEqual([]);
          },
        ),
        { numRuns: runs },
      );
    },
    patience,
  );

  it(
    'never let two lives of a wheel end overlap',
    async () => {
      await fc.assert(
        fc.asyncProperty(arbitraryFleet, arbitraryWindow, async (fleet, window) => {
          await rebuilt(fleet, window);
          for (const component of componentNames)
            expect(
              await rowsOf(
                engine,
                `select a.life_id from lives_${component} a join lives_${component} b on a.wheel_end = b.wheel_end and a.slot < b.slot where a.observed_to_miles > b.observed_from_miles + 1e-9`,
              ),
            ).toEqual([]);
        }),
        { numRuns: runs },
      );
    },
    patience,
  );

  it(
    'have every failure end exactly one life, or say why not',
    async () => {
      await fc.assert(
        fc.asyncProperty(
          arbitraryFleet,
          arbitraryWindow,
          fc.constantFrom(...componentNames),
          async (fleet, window, component) => {
            await rebuilt(fleet, window, [component]);
            const fates = await rowsOf(
              engine,
              `select failure_id, fate, life_id from failure_fates_${component} order by failure_id`,
            );
            expect(fates.map((row) => row['failure_id']).sort()).toEqual(
              (fleet.failures ?? []).map((row) => row['failure_id']).sort(),
            );
            const ended = await rowsOf(
              engine,
              `select life_id, end_id from lives_${component} where state = 'failed' and inferred in ('no', 'start') order by life_id`,
            );
            const fromFates = fates
              .filter((row) => row['fate'] === 'ended a life')
              .map((row) => ({ life_id: row['life_id'], end_id: row['failure_id'] }));
            const byId = (a: { life_id?: unknown }, b: { life_id?: unknown }) =>
              String(a.life_id) < String(b.life_id) ? -1 : 1;
            expect(fromFates.sort(byId)).toEqual(ended.sort(byId));
          },
        ),
        { numRuns: runs },
      );
    },
    patience,
  );

  it(
    'give the same lives and episodes in whatever order their rows come',
    async () => {
      await fc.assert(
        fc.asyncProperty(arbitraryFleet, arbitraryWindow, async (fleet, window) => {
          const all = async () => [
            ...(await Promise.all(componentNames.map((component) => rowsOf(engine, lives(component))))),
            await rowsOf(
              engine,
              'select episode_id, component, life_id, lining_contaminated from episodes order by episode_id',
            ),
          ];
          await rebuilt(fleet, window);
          const before = await all();
          await rebuilt(
            Object.fromEntries(Object.entries(fleet).map(([table, rows]) => [table, [...rows].reverse()])),
            window,
          );
          expect(await all()).toEqual(before);
        }),
        { numRuns: runs },
      );
    },
    patience,
  );
});
