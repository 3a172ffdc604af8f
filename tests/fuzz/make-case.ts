import { gzipSync } from 'node:zlib';
import { Random } from '../../data/demo/random.ts';
import { tableNames } from '../../shared/record-tables.ts';
import { zipFile } from '../../data/demo/messy/zip-file.ts';
import { delimitedText } from './formats/delimited.ts';
import { fileSource, type FuzzCase, type SpoiltFile } from './fuzz-case.ts';
import { pick, pickWeighed, whole } from './pick.ts';
import { routes, type Route } from './routes.ts';
import { validTables, type TextTable, type ValidTables } from './valid-tables.ts';

let tables: ValidTables | undefined;

/**
 * The case of a number: the same for ever for one seed, whatever cases ran before it.
 * @param rebuilt whether lives are to be made of it, for which one table is not enough
 */
export async function makeCase(seed: number, number: number, rebuilt: boolean): Promise<FuzzCase> {
  const random = new Random(seed, number);
  const { canonical, foreign } = (tables ??= validTables());
  const mapped = random.chance(0.2) ? pick(random, foreign) : null;
  const table = someRows(mapped?.table ?? pick(random, canonical), random);
  const route: Route = pickWeighed(random, routes);
  const beside = random.chance(0.35) || rebuilt ? companions(table, canonical, random) : [];
  const {
    file,
    format,
    mutations,
    truth,
    maps,
    sound: inside = [],
  } = await route.spoil({
    table,
    map: mapped?.map ?? null,
    beside,
    random,
  });
  const packed = await maybePacked(file, route, random);
  const sound = await Promise.all(beside.map(async (one) => [one, await fileOf(one, random)] as const));
  const files = route.alone ? [] : sound;
  const pieceBytes = packed.bytes.length > 100_000 ? 65_536 : pick(random, [7, 100, 1_000, 65_536]);
  return {
    format: packed === file ? format : `${format} in ${packed.name.slice(-3).replace('.', '')}`,
    mutations,
    spoilt: packed,
    truth: packed.name.endsWith('.zip') && packed !== file ? { ...truth, delimited: null } : truth,
    sources: [
      fileSource(packed, pieceBytes, random.chance(0.5)),
      ...files.map(([, file]) => fileSource(file, 65_536, false)),
    ],
    sound: new Map([...inside, ...files.map(([{ rows }, { name }]) => [name, rows.length] as const)]),
    maps,
  };
}

const someRows = (table: TextTable, random: Random): TextTable => {
  const count = Math.min(table.rows.length, whole(random, 4, 14));
  const start = random.below(table.rows.length - count + 1);
  return { ...table, rows: table.rows.slice(start, start + count) };
};

/** One sound table of each other kind, so that lives can be made of what is kept. */
function companions({ table }: TextTable, canonical: readonly TextTable[], random: Random): TextTable[] {
  return tableNames.flatMap((name) => {
    if (name === table || (table === null && name !== 'units') || name === 'readings') return [];
    const all = canonical.filter((one) => one.table === name);
    const one = pick(random, all);
    return [{ ...one, name: `${name}-sound`, rows: one.rows.slice(0, 25) }];
  });
}

async function fileOf(table: TextTable, random: Random): Promise<SpoiltFile> {
  const { ending, bytes } = await delimitedText.write(table, random);
  return { name: table.name + ending, bytes };
}

/** Now and then a spoilt file comes inside a gzip or a zip that is sound. */
async function maybePacked(file: SpoiltFile, { alone }: Route, random: Random): Promise<SpoiltFile> {
  if (alone || file.bytes.length > 2 ** 22 || !random.chance(0.12)) return file;
  if (random.chance(0.5)) return { name: `${file.name}.gz`, bytes: new Uint8Array(gzipSync(file.bytes)) };
  return { name: 'packed.zip', bytes: zipFile([{ name: file.name, content: file.bytes }]) };
}
