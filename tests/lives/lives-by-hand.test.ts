import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openNodeEngine } from '../../lib/engine/node.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { drawnFleet } from './oracle/arbitrary-histories.ts';
import { differences } from './oracle/compare.ts';

// The record contract's rules a second time, as a walk along plain rows written without sight of the SQL.
describe('lives rebuilt in SQL and walked by hand', () => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await openNodeEngine();
  });
  afterAll(() => engine.close());

  it.each([20_261_125, 27])(
    'agree in every column of every life of arbitrary fleets (seed %i)',
    async (seed) => {
      const fleets = fc.sample(drawnFleet(40), { numRuns: 5, seed });
      let lives = 0;
      for (const drawn of fleets) {
        const { found, count } = await differences(engine, drawn);
        expect(found.slice(0, 5)).toEqual([]);
        lives += count;
      }
      expect(lives).toBeGreaterThan(2_000);
    },
    120_000,
  );
});
