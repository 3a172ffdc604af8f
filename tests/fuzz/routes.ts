import { gzipSync } from 'node:zlib';
import type { Random } from '../../data/demo/random.ts';
import type { ColumnMap } from '../../shared/column-map.ts';
import { zipFile } from '../../data/demo/messy/zip-file.ts';
import { delimitedText, encoded } from './formats/delimited.ts';
import { jsonLines } from './formats/json-lines.ts';
import { bookOfTables, workbook } from './formats/workbook.ts';
import type { Writer, Written, WrittenAs } from './formats/writer.ts';
import { writers } from './formats/writers.ts';
import { nothingKnown, type SpoiltFile, type Truth } from './fuzz-case.ts';
import { archiveMutations } from './mutations/archive-parts.ts';
import { byteMutations } from './mutations/bytes.ts';
import { tableMutations } from './mutations/cells.ts';
import type { TableMutation } from './mutations/mutation.ts';
import { partsOf } from './mutations/parts.ts';
import { textMutations } from './mutations/text-bytes.ts';
import { spoiltWords } from './mutations/words.ts';
import { workbookMutations } from './mutations/workbook-parts.ts';
import { pick, pickWeighed, whole } from './pick.ts';
import type { TextTable } from './valid-tables.ts';

interface Given {
  readonly table: TextTable;
  readonly map: ColumnMap | null;
  readonly beside: readonly TextTable[];
  readonly random: Random;
}

interface Spoilt {
  readonly file: SpoiltFile;
  readonly format: string;
  readonly mutations: readonly string[];
  readonly truth: Truth;
  readonly maps: readonly ColumnMap[];
  /** Rows of files within it that are whole. */
  readonly sound?: ReadonlyMap<string, number>;
}

/** A way from a valid table to a spoilt file: by its cells, its text, its bytes, its parts. */
export interface Route {
  readonly weight: number;
  /** Whether it packs the sound tables with its own. */
  readonly alone?: boolean;
  spoil(given: Given): Promise<Spoilt>;
}

const mapsOf = (map: ColumnMap | null): ColumnMap[] => (map === null ? [] : [map]);

/** Some mutations of a table, one after the other. */
function spoiltTable(table: TextTable, random: Random, most: number): { table: TextTable; chosen: TableMutation[] } {
  const chosen = Array.from({ length: whole(random, 1, most) }, () => pickWeighed(random, tableMutations));
  return { table: chosen.reduce((now, mutation) => mutation.apply(now, random), table), chosen };
}

const isBlank = (row: readonly string[]): boolean => row.every((cell) => cell.trim() === '');

function truthOf(table: TextTable, chosen: readonly TableMutation[], writer: Writer, written: Written): Truth {
  const mayRefuse = chosen.some((mutation) => mutation.mayRefuse);
  const { rows } = table;
  const parted =
    writer === delimitedText && [table.headers, ...rows].some((row) => row.some((cell) => /[\r\n]/.test(cell)));
  return {
    rows: parted ? null : writer.counts === 'all' ? rows : rows.filter((row) => !isBlank(row)),
    cells: !mayRefuse && written.exact,
    texts: written.exact && !mayRefuse && table.table !== null ? { headers: table.headers, table: table.table } : null,
    mayRefuse,
    delimited: writer === delimitedText ? decoded(written) : null,
    lines: null,
  };
}

const byCells: Route = {
  weight: 4,
  async spoil({ table: valid, map, random }) {
    const { table, chosen } = spoiltTable(valid, random, 2);
    const writer = pickWeighed(random, map === null ? writers : writers.filter(({ format }) => format !== 'parquet'));
    const written = await writer.write(table, random);
    return {
      file: { name: table.name + written.ending, bytes: written.bytes },
      format: writer.format,
      mutations: chosen.map(({ name }) => name),
      truth: truthOf(table, chosen, writer, written),
      maps: mapsOf(map),
    };
  },
};

function decoded({ bytes, text }: Written): string {
  const name = text === 'windows-1252' ? 'latin1' : (text ?? 'utf-8');
  if (name !== 'utf-16be') return new TextDecoder(name).decode(bytes);
  return new TextDecoder('utf-16le').decode(Buffer.from(bytes).swap16());
}

const byText: Route = {
  weight: 3,
  async spoil({ table, map, random }) {
    const writer = random.chance(0.75) ? delimitedText : jsonLines;
    const written = await writer.write(table, random);
    const chosen = Array.from({ length: whole(random, 1, 2) }, () => pickWeighed(random, textMutations));
    const text = chosen.reduce((now, mutation) => mutation.apply(now, random), decoded(written));
    const as: WrittenAs = written.text;
    const bytes = encoded(as?.startsWith('utf-16') ? `\ufeff${text.replace(/^\ufeff/, '')}` : text, as);
    return {
      file: { name: table.name + written.ending, bytes },
      format: writer.format,
      mutations: chosen.map(({ name }) => name),
      truth:
        writer === delimitedText
          ? { ...nothingKnown, delimited: decoded({ ...written, bytes }) }
          : { ...nothingKnown, lines: text.split('\n').filter((line) => /[^\t-\r ]/.test(line)).length },
      maps: mapsOf(map),
    };
  },
};

const byBytes: Route = {
  weight: 4,
  async spoil({ table, map, random }) {
    const writer = pick(random, map === null ? writers : writers.filter(({ format }) => format !== 'parquet'));
    const written = await writer.write(table, random);
    const zipped = random.chance(0.15);
    const sound = zipped ? new Uint8Array(gzipSync(written.bytes)) : written.bytes;
    const mutation = pickWeighed(random, byteMutations);
    return {
      file: { name: table.name + written.ending + (zipped ? '.gz' : ''), bytes: mutation.apply(sound, random) },
      format: writer.format + (zipped ? ' in gz' : ''),
      mutations: [mutation.name],
      truth: nothingKnown,
      maps: mapsOf(map),
    };
  },
};

const byWorkbook: Route = {
  weight: 2,
  async spoil({ table, map, random }) {
    const mutation = pickWeighed(random, workbookMutations);
    const { bytes } = await workbook.write(table, random);
    const spoilt = zipFile(mutation.apply(partsOf(bytes), random));
    const rows = mutation.sameRows ? table.rows : null;
    return {
      file: { name: `${table.name}.xlsx`, bytes: spoilt },
      format: workbook.format,
      mutations: [mutation.name],
      truth: { ...nothingKnown, rows },
      maps: mapsOf(map),
    };
  },
};

const byArchive: Route = {
  weight: 1,
  alone: true,
  async spoil({ table, map, beside, random }) {
    const parts = await Promise.all(
      [table, ...beside].map(async (one) => {
        const { bytes, ending } = await delimitedText.write(one, random);
        return { name: one.name + ending, content: bytes };
      }),
    );
    const [units] = beside;
    if (units && random.chance(0.3))
      parts.push({ name: 'book.xlsx', content: bookOfTables({ units, Notes: table }, random) });
    const mutation = pickWeighed(random, archiveMutations);
    const { parts: spoilt, pack } = mutation.apply({ parts, pack: (all) => zipFile(all) }, random);
    const whole = mutation.filesWhole ? beside : [];
    return {
      file: { name: 'fleet.zip', bytes: pack(spoilt) },
      format: 'archive',
      mutations: [mutation.name],
      truth: nothingKnown,
      sound: new Map(whole.map(({ rows }, at) => [`fleet.zip/${parts[at + 1]!.name}`, rows.length])),
      maps: mapsOf(map),
    };
  },
};

/** A column map or a record set that does not say what it should. */
const byWords: Route = {
  weight: 0.7,
  async spoil({ table, map, random }) {
    const said = map ?? { name: 'Fleet', observedFrom: '2020-01-01', observedTo: '2024-01-01', invented: true };
    const spoilt = JSON.stringify(spoiltWords(said, random));
    const { bytes, ending } = await delimitedText.write(table, random);
    const name = map === null ? 'record-set.json' : 'map.json';
    return {
      file: {
        name: 'told.zip',
        bytes: zipFile([
          { name: table.name + ending, content: bytes },
          { name, content: spoilt },
        ]),
      },
      format: name,
      mutations: ['words: one of them'],
      truth: nothingKnown,
      maps: [],
    };
  },
};

export const routes: readonly Route[] = [byCells, byText, byBytes, byWorkbook, byArchive, byWords];
