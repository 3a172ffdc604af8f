import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildExport } from '../../app/_export/build-export.ts';

/** Holds the page's thread to 50 ms: nothing else may run beside it. */
const alone = 'tests/browser/million-lives.test.ts';

/**
 * `npm run test:browser` builds the export once and plays the tests in Chromium, two files at a time, then the one that
 * wants the machine to itself; `-- FILE…` plays some.
 */
function played(options: readonly string[], folder: string): boolean {
  const { status } = spawnSync(
    'npx',
    ['vitest', 'run', '--config', 'tests/config/vitest.browser.config.ts', ...options],
    {
      stdio: 'inherit',
      env: { ...process.env, HUBCAUSE_EXPORT: folder },
    },
  );
  return status === 0;
}

const built = process.env['HUBCAUSE_EXPORT'];
const folder = built ?? mkdtempSync(join(tmpdir(), 'hubcause-export-'));
if (built === undefined) buildExport(folder, '/fleet/hubcause');
const some = process.argv.slice(2);
const runs = some.length > 0 ? [some] : [['--exclude', alone, '--fileParallelism', '--maxWorkers=2'], [alone]];
// The second is played whatever the first found.
const good = runs.map((options) => played(options, folder));
if (built === undefined) rmSync(folder, { recursive: true, force: true });
process.exitCode = good.every(Boolean) ? 0 : 1;
