import { appendFileSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { demoFilePieces } from '../../data/demo/demo-files.ts';
import { DEFAULT_SEED, DEFAULT_UNITS, type DemoOptions } from '../../data/demo/demo-units.ts';
import { MESSY_UNITS, messyFleet } from '../../data/demo/messy/messy-fleet.ts';
import { WrongCall, type Streams } from './call.ts';

function wholeNumber(name: string, text: string, least: number): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value) || value < least)
    throw new WrongCall(`not a whole number; --${name} takes one from ${least} up; ${text}`);
  return value;
}

/** `hubcause demo`: writes the invented fleet, tidy or as five shops would export it, with its truth into an empty folder. */
export function demoCommand(parts: string[], streams: Streams): void {
  const { values } = parseArgs({
    args: parts,
    options: {
      ...{ units: { type: 'string' }, seed: { type: 'string' }, out: { type: 'string' } },
      messy: { type: 'boolean', default: false },
    },
  });
  const { out, messy } = values;
  if (out === undefined) throw new WrongCall('nowhere to write; --out names a folder; none named');
  const units = wholeNumber('units', values.units ?? String(messy ? MESSY_UNITS : DEFAULT_UNITS), 1);
  const seed = wholeNumber('seed', values.seed ?? String(DEFAULT_SEED), 0);
  mkdirSync(out, { recursive: true });
  if (readdirSync(out).length > 0)
    throw new WrongCall(`the folder holds something already; --out names an empty or a new folder; ${out}`);
  const files = (messy ? writeMessy : writeTidy)(out, { units, seed });
  const how = messy ? ', as five shops would export them,' : '';
  streams.out(`${units} invented vehicles${how} written to ${out} as ${files} files; seed ${seed}.`);
}

function writeTidy(out: string, options: DemoOptions): number {
  const names = new Set<string>();
  for (const { name, text } of demoFilePieces(options)) {
    names.add(name);
    appendFileSync(join(out, name), text);
  }
  return names.size;
}

function writeMessy(out: string, options: DemoOptions): number {
  const { exports, documents } = messyFleet(options);
  for (const { name, bytes } of exports) writeFileSync(join(out, name), bytes);
  for (const { name, text } of documents) writeFileSync(join(out, name), text);
  return exports.length + documents.length;
}
