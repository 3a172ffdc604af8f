import { appendFileSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { demoFilePieces } from '../../data/demo/demo-files.ts';
import { DEFAULT_SEED, DEFAULT_UNITS } from '../../data/demo/demo-units.ts';
import { WrongCall, type Streams } from './call.ts';

function wholeNumber(name: string, text: string, least: number): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value) || value < least)
    throw new WrongCall(`not a whole number; --${name} takes one from ${least} up; ${text}`);
  return value;
}

/** `hubcause demo`: writes the invented fleet with its planted truth into an empty folder. */
export function demoCommand(parts: string[], streams: Streams): void {
  const { values } = parseArgs({
    args: parts,
    options: { units: { type: 'string' }, seed: { type: 'string' }, out: { type: 'string' } },
  });
  const { out } = values;
  if (out === undefined) throw new WrongCall('nowhere to write; --out names a folder; none named');
  const units = wholeNumber('units', values.units ?? String(DEFAULT_UNITS), 1);
  const seed = wholeNumber('seed', values.seed ?? String(DEFAULT_SEED), 0);
  mkdirSync(out, { recursive: true });
  if (readdirSync(out).length > 0)
    throw new WrongCall(`the folder holds something already; --out names an empty or a new folder; ${out}`);
  const names = new Set<string>();
  for (const { name, text } of demoFilePieces({ units, seed })) {
    names.add(name);
    appendFileSync(join(out, name), text);
  }
  streams.out(`${units} invented vehicles written to ${out} as ${names.size} files; seed ${seed}.`);
}
