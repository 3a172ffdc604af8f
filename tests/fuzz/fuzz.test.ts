import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { runCase } from './run-case.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

const seed = 20_261_130;

/** The first of the cases that `npm run test:fuzz -- --seed 20261130` runs. */
it.each([0, 50, 100, 150, 200, 250])(
  'no spoilt file from the %ith on ends the reading, hangs it or loses a row',
  async (first) => {
    for (let number = first; number < first + 50; number++) {
      const { broken, format, mutations } = await runCase(engine, seed, number);
      expect(broken, `--seed ${seed} --case ${number}: ${format}, ${mutations.join(' + ')}`).toEqual([]);
    }
  },
  300_000,
);
