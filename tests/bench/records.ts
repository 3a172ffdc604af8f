import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { readers, type Account } from './records/readers.ts';
import { BROKEN_ROWS, HISTORY_ROWS, writeServiceHistory } from './records/service-history.ts';

/** From CSV to the table our reader may take this many times as long as the engine's own on one thread. */
const mostTimes = 3;
const repeats = 3;

interface Timed {
  readonly name: string;
  readonly seconds: number;
  /** Of all processor cores together: where the machine does much else, the clock says more of that than of a reader. */
  readonly cpuSeconds: number;
  readonly account: Account;
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;

/** The readers take turns, so that what else the machine does meets all of them alike. */
async function timed(path: string): Promise<Timed[]> {
  const names = Object.keys(readers);
  const times = new Map<string, { wall: number[]; cpu: number[] }>(names.map((name) => [name, { wall: [], cpu: [] }]));
  const accounts = new Map<string, Account>();
  for (let repeat = 0; repeat < repeats; repeat++) {
    for (const [name, read] of Object.entries(readers)) {
      const [start, cpuStart] = [performance.now(), process.cpuUsage()];
      accounts.set(name, await read(path));
      const { user, system } = process.cpuUsage(cpuStart);
      times.get(name)?.wall.push((performance.now() - start) / 1e3);
      times.get(name)?.cpu.push((user + system) / 1e6);
    }
  }
  const none = { kept: 0, setAside: 0 };
  return names.map((name) => ({
    name,
    seconds: median(times.get(name)?.wall ?? []),
    cpuSeconds: median(times.get(name)?.cpu ?? []),
    account: accounts.get(name) ?? none,
  }));
}

/** Times readers of CSV on one file and prints what each can account for; false where ours loses a row or takes too long. */
export async function benchRecords(): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), 'hubcause-bench-'));
  try {
    const path = join(folder, 'services.csv');
    await writeServiceHistory(path);
    const megabytes = Math.round(statSync(path).size / 1e6);
    const rows = await timed(path);
    const [base, own] = rows;
    process.stdout.write(`${HISTORY_ROWS} rows, ${BROKEN_ROWS} of them broken, ${megabytes} MB\n`);
    for (const { name, seconds, cpuSeconds, account } of rows) {
      const lost = HISTORY_ROWS - account.kept - account.setAside;
      const wall = `${seconds.toFixed(2)} s, ${(seconds / (base?.seconds ?? NaN)).toFixed(2)}×`;
      const cpu = `of processor ${cpuSeconds.toFixed(2)} s, ${(cpuSeconds / (base?.cpuSeconds ?? NaN)).toFixed(2)}×`;
      const said = `kept ${account.kept}, set aside ${account.setAside}, unaccounted for ${lost}`;
      process.stdout.write(`${name.padEnd(26)} ${wall}; ${cpu}; ${said}\n`);
    }
    process.stdout.write(`${cpus()[0]?.model ?? ''}; Node ${process.version}\n`);
    const whole = own?.account.kept === HISTORY_ROWS - BROKEN_ROWS && own.account.setAside === BROKEN_ROWS;
    return whole && own.seconds <= mostTimes * (base?.seconds ?? 0);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
