import { gzipSync } from 'node:zlib';
import { zipFile } from '../../../data/demo/messy/zip-file.ts';
import { pick, whole } from '../pick.ts';
import type { Mutation } from './mutation.ts';
import type { Part } from './parts.ts';

/** What is packed, and how it ends up. */
export interface Archive {
  readonly parts: readonly Part[];
  readonly pack: (parts: readonly Part[]) => Uint8Array;
}

const paths = [
  '../units.csv',
  '../../../../tmp/units.csv',
  '/etc/units.csv',
  'C:\\units.csv',
  '..\\..\\units.csv',
  'a/../../units.csv',
  'units\u0000.csv',
  'units.csv/',
  './units.csv',
  '//x/units.csv',
  'CON',
  'units.csv:stream',
  '<img src=x onerror=ran=1>.csv',
  '=1+1.csv',
  '__MACOSX/units.csv',
  '',
  ' ',
  '\u202evsc.stinu',
];

export interface ArchiveMutation extends Mutation<Archive> {
  /** Whether every file packed is in it still, under its own name. */
  readonly filesWhole?: boolean;
}

const parts = (
  name: string,
  change: (archive: readonly Part[], random: Parameters<Mutation<Archive>['apply']>[1]) => readonly Part[],
  weight = 1,
): Mutation<Archive> => ({
  name: `archive: ${name}`,
  weight,
  apply: (archive, random) => ({ ...archive, parts: change(archive.parts, random) }),
});
/** Files beside the others, all of which stay whole. */
const added = (
  name: string,
  more: (archive: readonly Part[], random: Parameters<Mutation<Archive>['apply']>[1]) => readonly Part[],
  weight = 1,
): ArchiveMutation => ({ ...parts(name, (all, random) => [...all, ...more(all, random)], weight), filesWhole: true });
const packed = (
  name: string,
  change: (bytes: Uint8Array, random: Parameters<Mutation<Archive>['apply']>[1]) => Uint8Array,
  weight = 1,
): Mutation<Archive> => ({
  name: `archive: ${name}`,
  weight,
  apply: (archive, random) => ({ ...archive, pack: (all) => change(archive.pack(all), random) }),
});

/** A table of text that unpacks to hundreds of times its size. */
const swollen = (megabytes: number, filler: string): string =>
  `unit_id,axle_roles\n${filler.repeat((megabytes * 2 ** 20) / filler.length)}\n`;

const countOfFiles = 10;
const listAt = 16;
const inEnd = (bytes: Uint8Array, field: number, value: number, size: 2 | 4): Uint8Array => {
  const changed = bytes.slice();
  const view = new DataView(changed.buffer, Math.max(0, changed.length - 22));
  if (size === 2) view.setUint16(field, value, true);
  else view.setUint32(field, value, true);
  return changed;
};

export const archiveMutations: readonly ArchiveMutation[] = [
  { name: 'archive: whole', filesWhole: true, apply: (archive) => archive },
  added(
    'a path that leads out',
    (_, random) => [{ name: pick(random, paths), content: 'unit_id,axle_roles\nout,steer\n' }],
    2,
  ),
  parts('a name twice', (all, random) => [...all, pick(random, all)]),
  added('a name of thousands of letters', (_, random) => [
    { name: `units${'x'.repeat(whole(random, 300, 60_000))}.csv`, content: 'x' },
  ]),
  added('many files', () => Array.from({ length: 300 }, (_, at) => ({ name: `notes/${at}.md`, content: '' })), 0.3),
  added('an archive in it', (all) => [{ name: 'units.zip', content: zipFile(all) }]),
  parts('gzips in it', (all) =>
    all.map((part) => ({ name: `${part.name}.gz`, content: gzipSync(Buffer.from(part.content as string)) })),
  ),
  added(
    'swollen',
    (_, random) => [
      {
        name: 'units-swollen.csv',
        content: swollen(whole(random, 2, 24), pick(random, ['\n', ' ', 'x', '"', ',', '0,steer\n'])),
      },
    ],
    0.15,
  ),
  packed('in a gzip', (bytes) => gzipSync(bytes)),
  packed('something before it', (bytes, random) =>
    Buffer.concat([Buffer.from(pick(random, ['x', 'PK', 'PK\u0003\u0004', 'MZ'.repeat(99)])), bytes]),
  ),
  packed('a comment behind it', (bytes, random) =>
    Buffer.concat([
      inEnd(bytes, 20, 50, 2),
      Buffer.from(pick(random, ['x'.repeat(50), `PK\u0005\u0006${'\0'.repeat(46)}`])),
    ]),
  ),
  packed('another number of files', (bytes, random) =>
    inEnd(inEnd(bytes, countOfFiles, pick(random, [0, 1, 65_535]), 2), 8, pick(random, [0, 1, 65_535]), 2),
  ),
  packed('its list somewhere else', (bytes, random) =>
    inEnd(bytes, listAt, pick(random, [0, 1, bytes.length, 0xffff_ffff, random.below(bytes.length)]), 4),
  ),
  {
    name: 'archive: sizes that lie',
    apply: (archive, random) => ({
      ...archive,
      pack: (all) => zipFile(all, { size: pick(random, [0, 1, 100, 10_000_000, 300_000_000, 0xffff_ffff]) }),
    }),
  },
];
