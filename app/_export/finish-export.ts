import { readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { contentPolicy, scriptHashes } from './content-policy.ts';
import { filesBelow } from './files-below.ts';
import { maskableIcon } from './maskable-icon.ts';
import { writeServiceWorker } from './write-service-worker.ts';

/** The policy travels in the page itself too, so that it holds on any static host. */
function withPolicy(html: string): string {
  const policy = contentPolicy(scriptHashes(html)).replaceAll('"', '&quot;');
  return html.replace('<head>', `<head><meta http-equiv="Content-Security-Policy" content="${policy}"/>`);
}

const compressible = /\.(html|js|css|json|txt|csv|svg|wasm|webmanifest)$/;
const smallestWorthwhileBytes = 1024;

/**
 * Makes a built export ready to serve: the policy into every page, what installing and opening without
 * a network need, a compressed copy beside every file worth it, and the uncompiled worker sources that
 * the bundler leaves behind removed.
 */
export function finishExport(folder: string): void {
  for (const path of filesBelow(folder)) if (/\.tsx?$/.test(path)) rmSync(path);
  for (const path of filesBelow(folder))
    if (path.endsWith('.html')) writeFileSync(path, withPolicy(readFileSync(path, 'utf8')));
  writeFileSync(join(folder, 'icon-maskable.svg'), maskableIcon(readFileSync(join(folder, 'icon.svg'), 'utf8')));
  writeServiceWorker(folder);
  for (const path of filesBelow(folder))
    if (compressible.test(path) && statSync(path).size >= smallestWorthwhileBytes)
      writeFileSync(`${path}.gz`, gzipSync(readFileSync(path), { level: 9 }));
}
