// Life for life: what the rules of the record contract make of the demo records is what really happened,
// for the shipped fleet and for another. Two independent pieces of code meet here: the generator writes
// down how each life ended, `lib/lives` works it out from the records alone.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import type { LifeTruth } from '../../data/demo/life-truth-row.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { type Fleet, type Row, rebuild, rowsOf } from '../lives/record-tables-in-engine.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const key = (unit: unknown, axle: unknown, side: unknown, service: unknown) =>
  [unit, axle, side, service ?? 'first'].join(' ');

function disagreements(lives: readonly Row[], truth: ReadonlyMap<string, LifeTruth>): string[] {
  const found: string[] = [];
  for (const life of lives) {
    const name = key(life['unit_id'], life['axle'], life['side'], life['start_service_id']);
    const real = truth.get(name);
    const state = real?.end === 'mate' ? 'planned' : real?.end;
    if (!real || state !== life['state']) found.push(`${name}: ${life['state']}, really ${state}`);
    else if (real.start !== life['install_kind']) found.push(`${name}: ${life['install_kind']}, really ${real.start}`);
    // Where a row's miles were blank the ages are interpolated and may differ; where read, by rounding only.
    else if (life['mileage_quality'] === 'measured' && life['exit_miles'] !== null) {
      if (Math.abs(Number(life['exit_miles']) - real.exit_age) > 1) found.push(`${name}: exit ${life['exit_miles']}`);
      if (Math.abs(Number(life['entry_miles']) - real.entry_age) > 1)
        found.push(`${name}: entry ${life['entry_miles']}`);
    }
  }
  return found;
}

describe.each([{}, { units: 400, seed: 101 }])('lives of the demo fleet %o', (options) => {
  it('are the true ones', async () => {
    const fleet = generateDemoFleet(options);
    const window = { from: fleet.observedFrom, to: fleet.observedTo };
    const source = await rebuild(engine, fleet as unknown as Fleet, window);
    await source.ensure('seal');
    const lives = await rowsOf(
      engine,
      'select unit_id, axle, side, start_service_id, state, install_kind, mileage_quality, entry_miles, exit_miles from lives_seal',
    );
    const observed = fleet.truthLives.filter(({ end }) => end !== 'before-window');
    const truth = new Map(
      observed.map((life) => [key(life.unit_id, life.axle, life.side, life.start_service_id), life]),
    );
    expect(lives).toHaveLength(truth.size);
    expect(disagreements(lives, truth)).toEqual([]);
    const measured = lives.filter((life) => life['mileage_quality'] === 'measured');
    expect(measured.length).toBeGreaterThan(0.9 * lives.length);
  });
});
