import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import ts from 'typescript';
import { filesBelow } from './files-below.ts';

export const serviceWorkerName = 'service-worker.js';

const source = new URL('../_offline/service-worker.ts', import.meta.url);
const hashOf = (content: Buffer | string): string => createHash('sha256').update(content).digest('hex');
/** Asked for by no page that is there. */
const unasked = /(^|\/)(404\.html|404\/|_not-found\/)|\.gz$/;

/** Every file of the export by the path it is asked for at, with its hash. */
export function exportedFiles(folder: string): Record<string, string> {
  const files = filesBelow(folder)
    .map((path) => relative(folder, path).split(sep).join('/'))
    .filter((path) => path !== serviceWorkerName && !unasked.test(path))
    .sort();
  return Object.fromEntries(
    files.map((path) => [path.replace(/(^|\/)index\.html$/, '$1'), hashOf(readFileSync(join(folder, path)))]),
  );
}

/** Writes the worker that keeps the export for opening without a network, with the list of what it keeps. */
export function writeServiceWorker(folder: string): void {
  const files = exportedFiles(folder);
  const { outputText } = ts.transpileModule(readFileSync(source, 'utf8'), {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext, removeComments: true },
  });
  const version = hashOf(JSON.stringify(files) + outputText).slice(0, 16);
  writeFileSync(
    join(folder, serviceWorkerName),
    `const exported = ${JSON.stringify({ version, files })};\n${outputText}`,
  );
}
