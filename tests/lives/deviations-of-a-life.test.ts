// Worked by hand from section 4 of the record contract: where a deviation can exist, and the order of evidence.
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { deviations } from '../../shared/deviations.ts';
import { rebuild, rowsOf, commonPractice, type Row } from './record-tables-in-engine.ts';
import type { Procedure } from '../../shared/procedure.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const job = (more: Row): Row => ({
  service_id: 's1',
  unit_id: '1',
  axle: 1,
  side: 'left',
  date: '2021-01-01',
  miles: 50_000,
  replaced: 'seal;gasket',
  reason: 'planned',
  hub_build: 'adjusted',
  nut_system: 'double',
  lubricant: 'oil',
  shop: 'North',
  ...more,
});

async function valuesOf(
  code: string,
  service: Row,
  more: { services?: Row[]; procedures?: Procedure[]; role?: string } = {},
) {
  const units = [
    {
      unit_id: '1',
      axle_roles: more.role ?? 'steer',
      acquired: 'new',
      in_service_date: '2020-01-01',
      in_service_miles: 0,
    },
  ];
  const readings = [{ unit_id: '1', date: '2022-01-01', miles: 100_000 }];
  const source = await rebuild(
    engine,
    { units, readings, services: [job(service), ...(more.services ?? [])] },
    { from: '2020-01-01', to: '2022-01-01' },
    more.procedures ?? [commonPractice],
  );
  await source.ensure('seal');
  const column = `dev_${code.replaceAll('-', '_')}`;
  return (await rowsOf(engine, `select ${column} as value from lives_seal where start_service_id = 's1'`))[0]?.[
    'value'
  ];
}

it.each<[string, Row, string]>([
  ['nut-backed-off', { hub_build: 'adjusted', nut_backed_off: 'yes' }, 'not-applicable'],
  ['nut-backed-off', { hub_build: 'spacer', nut_backed_off: 'yes' }, 'yes'],
  ['nut-backed-off', { hub_build: 'spacer', nut_backed_off: 'no' }, 'no'],
  ['nut-backed-off', { hub_build: 'spacer' }, 'unknown'],
  ['nut-backed-off', { hub_build: null, nut_backed_off: 'yes' }, 'unknown'],
  ['back-off-omitted', { nut_backed_off: 'no' }, 'yes'],
  ['back-off-omitted', { hub_build: 'spacer', nut_backed_off: 'no' }, 'not-applicable'],
  ['inner-torque-out', { hub_build: 'spacer', inner_torque_ftlb: 250 }, 'no'],
  ['inner-torque-out', { hub_build: 'spacer', inner_torque_ftlb: 249.9 }, 'yes'],
  ['inner-torque-out', { hub_build: 'spacer', inner_torque_ftlb: 350.1 }, 'yes'],
  ['inner-torque-out', { hub_build: 'adjusted', inner_torque_ftlb: 50 }, 'unknown'],
  ['outer-torque-out', { outer_torque_ftlb: 300 }, 'no'],
  ['outer-torque-out', { outer_torque_ftlb: 301 }, 'yes'],
  ['outer-torque-out', { outer_torque_ftlb: 301, nut_system: 'single' }, 'not-applicable'],
  ['outer-torque-out', { outer_torque_ftlb: 301, nut_system: null }, 'unknown'],
  ['end-play-high', { end_play_in: 0.006 }, 'yes'],
  ['end-play-high', { end_play_in: 0.005 }, 'no'],
  ['end-play-low', { end_play_in: 0.0005 }, 'yes'],
  ['end-play-low', { end_play_in: 0 }, 'unknown'],
  ['end-play-low', { end_play_in: 0, end_play_measured: 'yes' }, 'yes'],
  ['end-play-high', { end_play_in: 0.003, deviations: 'end-play-high' }, 'no'],
  ['end-play-unmeasured', { end_play_measured: 'no' }, 'yes'],
  ['end-play-unmeasured', { end_play_measured: 'yes' }, 'no'],
  ['end-play-unmeasured', {}, 'unknown'],
  ['seal-cocked', { step_seal_seated: 'skipped' }, 'yes'],
  ['seal-cocked', { step_seal_seated: 'done' }, 'no'],
  ['seal-cocked', { step_seal_seated: 'done', deviations: 'dirty-cavity;seal-cocked' }, 'yes'],
  ['seal-cocked', { checklist_complete: 'yes' }, 'no'],
  ['seal-cocked', { checklist_complete: 'no' }, 'unknown'],
  ['seal-cocked', { step_seal_seated: 'skipped', checklist_complete: 'yes' }, 'yes'],
  ['packed-in-oil-bath', { deviations: 'packed-in-oil-bath' }, 'yes'],
  ['packed-in-oil-bath', { lubricant: 'semi-fluid', deviations: 'packed-in-oil-bath' }, 'not-applicable'],
  ['underfilled', { fill_level: 'low' }, 'yes'],
  ['underfilled', { fill_level: 'over' }, 'no'],
  ['overfilled', { fill_level: 'over' }, 'yes'],
  ['spacer-missing', { hub_build: 'spacer', step_spacer_fitted: 'skipped' }, 'yes'],
  ['spacer-missing', { step_spacer_fitted: 'skipped' }, 'not-applicable'],
  ['gasket-reused', { step_gasket_new: 'skipped' }, 'yes'],
  ['gasket-reused', { replaced: 'seal;gasket' }, 'no'],
])('%s from %o is %s', async (code, service, value) => {
  expect(await valuesOf(code, service)).toBe(value);
});

it('reads a missing gasket as reused only at shops that list gaskets on most seal jobs', async () => {
  const others = (replaced: string): Row[] =>
    [2, 3, 4].map((index) =>
      job({
        service_id: `o${index}`,
        axle: 1,
        side: 'right',
        date: `2021-0${index}-01`,
        miles: 50_000 + index * 5_000,
        replaced,
      }),
    );
  expect(await valuesOf('gasket-reused', { replaced: 'seal' }, { services: others('seal;gasket') })).toBe('yes');
  expect(await valuesOf('gasket-reused', { replaced: 'seal' }, { services: others('seal') })).toBe('unknown');
});

it('judges by the version of the procedure valid on the install date', async () => {
  const tighter: Procedure = {
    ...commonPractice,
    version: '2',
    validFrom: '2021-01-01',
    parts: commonPractice.parts.map((part) => ({
      ...part,
      limits: { ...part.limits, endPlayIn: { minimum: 0.001, maximum: 0.003, source: 'test' } },
    })),
  };
  const procedures = [commonPractice, tighter];
  expect(await valuesOf('end-play-high', { end_play_in: 0.004, date: '2020-12-31' }, { procedures })).toBe('no');
  expect(await valuesOf('end-play-high', { end_play_in: 0.004, date: '2021-01-01' }, { procedures })).toBe('yes');
});

it('lists conflicts between kinds of evidence', async () => {
  await valuesOf('seal-cocked', { step_seal_seated: 'done', deviations: 'seal-cocked' });
  expect(await rowsOf(engine, "select conflicting_evidence from lives_seal where start_service_id = 's1'")).toEqual([
    { conflicting_evidence: 'seal-cocked' },
  ]);
});

it('knows nothing of the installation of an original seal', async () => {
  await valuesOf('seal-cocked', { checklist_complete: 'yes' });
  const [first] = await rowsOf(
    engine,
    `select ${deviations.map(({ code }) => `dev_${code.replaceAll('-', '_')}`).join(', ')} from lives_seal where slot = 0 and side = 'left'`,
  );
  expect(new Set(Object.values(first ?? {}))).toEqual(new Set(['unknown']));
});
