import { execFile } from 'node:child_process';
import { closeSync, ftruncateSync, mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FileAccount } from '../../shared/record-set.ts';
import { counts } from './sources.ts';

/** Beyond what a signed 32-bit place can point to. */
const size = 2 ** 31 + 5;
/** What the reading may add to the process, the file being more than four times as large. */
const mostGrownBytes = 2 ** 29;
const patience = 300_000;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'hubcause-large-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

interface Came {
  readonly account: FileAccount;
  readonly aside: readonly { readonly row: number; readonly reason: string }[];
  readonly grown: number;
}

/** Reads a file of 2 GB that is a hole behind its beginning, in a process whose memory can be told. */
async function readSparse(name: string, beginning: string): Promise<Came> {
  const path = join(folder, name);
  writeFileSync(path, beginning, 'latin1');
  const file = openSync(path, 'r+');
  ftruncateSync(file, size);
  closeSync(file);
  const reader = fileURLToPath(new URL('read-alone.ts', import.meta.url));
  const { stdout } = await promisify(execFile)(process.execPath, ['--import', 'tsx', reader, path]);
  rmSync(path);
  return JSON.parse(stdout) as Came;
}

describe('a file of 2 GB', () => {
  it.each([
    ['units.csv', '', /holds bytes of zero, so it is no text/],
    ['units.xlsx', 'PK\u0003\u0004', /is damaged, cut short/],
    ['units.parquet', 'PAR1', /is damaged, cut short/],
    ['units.arrow', 'ARROW1\0\0', /is cut short: the mark that ends Arrow data is missing/],
    ['units.xls', '\u00d0\u00cf\u0011\u00e0', /of the old binary kind/],
  ])(
    'that is no table is refused without being read through: %s',
    async (name, beginning, why) => {
      const { account, grown } = await readSparse(name, beginning);
      expect(account).toMatchObject({ read: 0, refused: expect.stringMatching(why) as string });
      expect(grown).toBeLessThan(mostGrownBytes);
    },
    patience,
  );

  it.each([
    ['units.csv', 'unit_id,axle_roles\n1,steer\n', 3],
    ['units.jsonl', '{"unit_id":"1","axle_roles":"steer"}\n', 2],
  ])(
    'that goes on without a line end costs one row and little memory: %s',
    async (name, beginning, row) => {
      const { account, aside, grown } = await readSparse(name, beginning);
      expect(account.refused).toBeNull();
      expect(counts(account)).toEqual([2, 1, 1]);
      expect(aside).toEqual([{ row, reason: 'the line is too long for a row' }]);
      expect(grown).toBeLessThan(mostGrownBytes);
    },
    patience,
  );
});
