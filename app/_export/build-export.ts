import { spawnSync } from 'node:child_process';
import { cpSync, rmSync } from 'node:fs';
import { finishExport } from './finish-export.ts';

/**
 * Builds the app into `folder`, to be served below `basePath`.
 * @throws Error where the build fails
 */
export function buildExport(folder: string, basePath = ''): void {
  const env = { ...process.env, HUBCAUSE_BASE_PATH: basePath, NEXT_TELEMETRY_DISABLED: '1' };
  const next = new URL('../../node_modules/next/dist/bin/next', import.meta.url).pathname;
  const { status } = spawnSync(process.execPath, [next, 'build'], { stdio: 'inherit', env });
  if (status !== 0) throw new Error('the build failed; what it printed stands above');
  if (folder !== 'out') {
    rmSync(folder, { recursive: true, force: true });
    cpSync('out', folder, { recursive: true });
  }
  finishExport(folder);
}
