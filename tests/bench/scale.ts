import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { ScaleRun } from './scale/task.ts';
import { writeFleet } from './scale/write-fleet.ts';

/** A fleet whose tables hold five million rows, a million of them services. */
const wholeUnits = 60_000;
const floors = { reading: 3, rebuilding: 3 };
const tabMegabytes = 4096;

function played(engine: string, folder: string): ScaleRun {
  const task = fileURLToPath(new URL('scale/task.ts', import.meta.url));
  const options = ['--import', 'tsx', task, engine, folder];
  return JSON.parse(execFileSync(process.execPath, options, { encoding: 'utf8' })) as ScaleRun;
}

const seconds = (value: number | null): string => (value === null ? '—' : `${value.toFixed(1)} s`);

/** The browser's engine beside DuckDB of this machine on one thread, over the same files; false where it takes too long or too much. */
export function benchScale(units = wholeUnits): boolean {
  const folder = mkdtempSync(join(tmpdir(), 'hubcause-scale-'));
  try {
    writeFleet(folder, units);
    const [plain, native, wasm] = [played('plain', folder), played('native', folder), played('wasm', folder)];
    process.stdout.write(`${units} vehicles, ${wasm.rows} rows, ${wasm.lives} seal lives; seconds of the processor\n`);
    for (const [name, run] of Object.entries({
      'DuckDB read_csv, 1 thread': plain,
      'ours, native': native,
      'ours, WASM': wasm,
    })) {
      const { reading, rebuilding, asking } = run.seconds;
      process.stdout.write(
        `${name.padEnd(26)} reading ${seconds(reading)}, rebuilding ${seconds(rebuilding)}, asking ${seconds(asking)}, at most ${run.peakMegabytes} MB\n`,
      );
    }
    const reading = wasm.seconds.reading / plain.seconds.reading;
    const rebuilding = wasm.seconds.rebuilding / native.seconds.rebuilding;
    process.stdout.write(
      `WASM over native: CSV to table ${reading.toFixed(2)}×, lives rebuilt ${rebuilding.toFixed(2)}×\n`,
    );
    process.stdout.write(`${cpus()[0]?.model ?? ''}; Node ${process.version}\n`);
    return (
      wasm.rows === native.rows &&
      wasm.lives === native.lives &&
      reading <= floors.reading &&
      rebuilding <= floors.rebuilding &&
      wasm.peakMegabytes < tabMegabytes
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}
