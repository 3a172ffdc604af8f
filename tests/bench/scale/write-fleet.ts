import { appendFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { demoFilePieces } from '../../../data/demo/demo-files.ts';

/**
 * The demo fleet of so many vehicles as files, a piece at a time, without its truth.
 * @param everyCheck of the inspections only one in so many is written, where services are to be the most
 */
export function writeFleet(folder: string, units: number, everyCheck = 1): void {
  mkdirSync(folder, { recursive: true });
  let checks = 0;
  for (const { name, text } of demoFilePieces({ units, seed: 27 }))
    if (!name.startsWith('truth')) {
      const thinned = name.startsWith('inspections') && everyCheck > 1;
      const kept = thinned ? text.replace(/.*\n/g, (line) => (checks++ % everyCheck === 0 ? line : '')) : text;
      appendFileSync(join(folder, name), kept);
    }
}
