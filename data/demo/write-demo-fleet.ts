import { mkdirSync, writeFileSync } from 'node:fs';
import { demoFiles } from './demo-files.ts';
import { generateDemoFleet } from './generate-demo-fleet.ts';

const folder = new URL('../demo-fleet/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const { name, text } of demoFiles(generateDemoFleet())) writeFileSync(new URL(name, folder), text);
