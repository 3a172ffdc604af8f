import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { buildExport } from '../../app/_export/build-export.ts';
import { serveExport } from '../../app/_export/serve-export.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the served export, below a sub-path. */
    readonly url: string;
  }
}

/** Builds and serves the export below a sub-path for all browser tests; HUBCAUSE_EXPORT serves one already built so. */
export default async function buildOnce(project: TestProject): Promise<() => Promise<void>> {
  const built = process.env['HUBCAUSE_EXPORT'];
  const folder = built ?? mkdtempSync(join(tmpdir(), 'hubcause-export-'));
  if (built === undefined) buildExport(folder, '/fleet/hubcause');
  const served = await serveExport(folder, '/fleet/hubcause');
  project.provide('url', served.url);
  return async () => {
    await served.close();
    if (built === undefined) rmSync(folder, { recursive: true, force: true });
  };
}
