import { mkdirSync, writeFileSync } from 'node:fs';
import { demoFiles } from './demo-files.ts';
import { generateDemoFleet } from './generate-demo-fleet.ts';
import { messyFleet } from './messy/messy-fleet.ts';

function write(
  folder: string,
  files: readonly { readonly name: string; readonly content: string | Uint8Array }[],
): void {
  const place = new URL(`../${folder}/`, import.meta.url);
  mkdirSync(place, { recursive: true });
  for (const { name, content } of files) writeFileSync(new URL(name, place), content);
}

write(
  'demo-fleet',
  demoFiles(generateDemoFleet()).map(({ name, text }) => ({ name, content: text })),
);
const { exports, documents } = messyFleet();
write('demo-exports', [
  ...exports.map(({ name, bytes }) => ({ name, content: bytes })),
  ...documents.map(({ name, text }) => ({ name, content: text })),
]);
