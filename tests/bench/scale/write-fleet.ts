import { appendFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { demoFilePieces } from '../../../data/demo/demo-files.ts';

/** The demo fleet of so many vehicles as files, a piece at a time, without its truth. */
export function writeFleet(folder: string, units: number): void {
  mkdirSync(folder, { recursive: true });
  for (const { name, text } of demoFilePieces({ units, seed: 27 }))
    if (!name.startsWith('truth')) appendFileSync(join(folder, name), text);
}
