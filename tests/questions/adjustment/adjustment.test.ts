import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { adjustableLives } from '../../../lib/questions/adjustment/adjustable-lives.ts';
import { adjustmentOf } from '../../../lib/questions/adjustment/adjustment.ts';
import { askedLives } from '../../../lib/questions/columns/asked-lives.ts';
import { states } from '../../../lib/questions/columns/life-columns.ts';
import { wording } from '../../../lib/questions/words/wording.ts';
import { viewSchema, type View } from '../../../shared/view.ts';
import { fleet, many, type Life } from '../fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

async function adjusted(lives: readonly Life[], view: Partial<View> = {}, compared: readonly string[] = []) {
  const source = await fleet(engine, lives);
  const asking = { source, view: viewSchema.parse(view), words: wording('us', 'miles') };
  const asked = askedLives(source, 'seal');
  const columns = await asked.columns();
  const able = adjustableLives(
    Int32Array.from({ length: columns.rows }, (_, row) => row),
    columns,
    columns,
  );
  const event = Array.from(able.rows, (row) => (columns.state[row] === states.failed ? 1 : 0));
  return { able, ...(await adjustmentOf(asking, asked, { rows: able.rows, event, compared })) };
}

const failed = (life: Life): Life => ({ exit_miles: 50_000, state: 'failed', mode: 'seal-inner', ...life });
/** `count` failed lives of one value. */
const failures = (column: string, value: string | null, count: number): Life[] =>
  many(count, (place) => failed({ life_id: `${value}${place}`, [column]: value }));
const names = ({ levels }: { readonly levels: readonly string[] }) => levels;

describe('which columns', () => {
  const both = [...failures('role', 'drive', 6), ...failures('role', 'steer', 5)];

  test('unless named: role, lubricant, build, duty, year; within shops; columns of one value left out and said', async () => {
    const { covariates, strataOf, said } = await adjusted(both);
    expect(Object.keys(covariates)).toEqual(['role']);
    expect(strataOf).toEqual(['shop']);
    expect(said).toEqual([
      'lubricant, hub build, duty and year of installation have one value each among these lives and say nothing',
    ]);
  });

  test('what is compared is never taken into account', async () => {
    const { covariates, strataOf } = await adjusted(both, { adjust: ['role', 'shop'] }, ['shop']);
    expect(Object.keys(covariates)).toEqual(['role']);
    expect(strataOf).toEqual([]);
  });

  test('the vehicle as a column becomes strata: over thirty values', async () => {
    const lives = many(62 * 5, (place) => failed({ life_id: `L${place}`, unit_id: `U${place % 62}` }));
    const { covariates, strataOf, strata, said } = await adjusted(lives, { adjust: ['unit_id'] });
    expect(covariates).toEqual({});
    expect(strataOf).toEqual(['shop', 'unit_id']);
    expect(strata.levels.length).toBe(62);
    expect(said).toEqual(['vehicle has over 30 values: compared only within each']);
  });
});

describe('levels', () => {
  test('most failures first; blank is a level of its own; two sparse ones stand together', async () => {
    const lives = [
      ...failures('duty', 'regional', 7),
      ...failures('duty', 'linehaul', 9),
      ...failures('duty', 'city', 3),
      ...failures('duty', 'tanker', 1),
      ...failures('duty', null, 2),
    ];
    const { covariates, said } = await adjusted(lives, { adjust: ['duty'] });
    const duty = covariates['duty'] as NonNullable<(typeof covariates)[string]>;
    expect(names(duty)).toEqual(['linehaul', 'regional', 'other', 'unknown']);
    expect([...duty.codes]).toEqual([...Array(7).fill(1), ...Array(9).fill(0), ...Array(4).fill(2), 3, 3]);
    expect(said[0]).toMatch(/^duty: city and tanker stand together as “other”/);
  });

  test('years join their neighbours until five failures stand together', async () => {
    const years = [2018, 2018, 2018, 2019, 2019, 2020, 2020, 2020, 2020, 2020, 2020, 2021];
    const lives = years.map((year, place) => failed({ life_id: `Y${place}`, install_date: `${year}-06-01` }));
    const { covariates } = await adjusted(lives, { adjust: ['install_year'] });
    const year = covariates['install_year'] as NonNullable<(typeof covariates)[string]>;
    expect(names(year)).toEqual(['2020 to 2021', '2018 to 2019']);
    expect([...year.codes]).toEqual([1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0]);
  });
});

test('only replacement lives with a known start that were watched; the rest are counted', async () => {
  const { able } = await adjusted([
    failed({}),
    failed({ install_kind: 'original' }),
    { exit_miles: null, exposure_miles: 500 },
    { exit_miles: 20_000, entry_miles: 20_000 },
    { exit_miles: 30_000, entry_miles: 10_000 },
  ]);
  expect([...able.rows]).toEqual([0, 4]);
  expect([[...able.entry], [...able.exit]]).toEqual([
    [0, 10_000],
    [50_000, 30_000],
  ]);
  expect(able.leftOut).toEqual({ notReplacement: 1, unknownStart: 1, notWatched: 1 });
});
