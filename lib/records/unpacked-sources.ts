import { tableOfFile } from '../../shared/record-tables.ts';
import { isPackage, openPackage } from './office-package.ts';
import { baseName, chunksOf, type RecordSource } from './record-source.ts';
import { bytesOf } from './source-bytes.ts';
import { zipMembers, type ZipMember } from './zip-archive.ts';

export interface UnpackedSources {
  readonly sources: readonly RecordSource[];
  readonly refused: readonly { readonly name: string; readonly why: string }[];
}

/**
 * Takes archives apart: each file inside becomes a source of its own, `archive.zip/services.csv`. So does
 * each sheet that is named after a table, `fleet.xlsx/services`, in a workbook that is not. All other
 * sources stay as they are.
 */
export async function unpackedSources(sources: readonly RecordSource[]): Promise<UnpackedSources> {
  const parts = await Promise.all(sources.map(partsOf));
  return { sources: parts.flatMap(({ sources }) => sources), refused: parts.flatMap(({ refused }) => refused) };
}

async function partsOf(source: RecordSource): Promise<UnpackedSources> {
  const whole = { sources: [source], refused: [] };
  // What cannot be opened is told of when it is read.
  if (!(await isZip(source).catch(() => false))) return whole;
  try {
    const members = await zipMembers(await bytesOf(source));
    if (!isPackage(members)) return archiveParts(source, members);
    const sheets = tableOfFile(source.name) === null ? await namedSheets(source, members) : [];
    return sheets.length > 0 ? { sources: sheets, refused: [] } : whole;
  } catch (error) {
    if (tableOfFile(source.name) !== null) return whole;
    const why = `is damaged, cut short or not to be had: ${error instanceof Error ? error.message : String(error)}`;
    return { sources: [], refused: [{ name: source.name, why }] };
  }
}

async function isZip(source: RecordSource): Promise<boolean> {
  const chunks = chunksOf(source.part ? source.part(0, 4) : source.stream());
  try {
    const { value } = await chunks.next();
    return value !== undefined && value[0] === 0x50 && value[1] === 0x4b && (value[2] === 3 || value[2] === 5);
  } finally {
    await chunks.return();
  }
}

/** What file systems leave beside the files that somebody packed. */
const leftover = /(^|[\\/])(__MACOSX[\\/]|\.|thumbs\.db$|desktop\.ini$)/i;

function archiveParts(archive: RecordSource, members: readonly ZipMember[]): UnpackedSources {
  const wanted = members.filter(({ name }) => !leftover.test(name));
  const named = (member: ZipMember) => `${archive.name}/${member.name}`;
  const empty = wanted.length === 0 ? [{ name: archive.name, why: 'is an archive with no files in it' }] : [];
  return {
    sources: wanted.flatMap((member) =>
      member.problem === null
        ? [{ name: named(member), size: member.size, within: archive.name, stream: () => member.stream() }]
        : [],
    ),
    refused: [
      ...empty,
      ...wanted.flatMap((member) => (member.problem === null ? [] : [{ name: named(member), why: member.problem }])),
    ],
  };
}

async function namedSheets(source: RecordSource, members: readonly ZipMember[]): Promise<RecordSource[]> {
  const workbook = await openPackage(members);
  if (typeof workbook === 'string') return [];
  const { size } = source;
  const sheets = workbook.sheets.filter(({ name }) => tableOfFile(baseName(name)) !== null);
  return sheets.map(({ name }) => ({
    name: `${source.name}/${name}`,
    size: Math.ceil(size / sheets.length),
    sheet: name,
    stream: () => source.stream(),
    ...(source.part ? { part: source.part } : {}),
  }));
}
