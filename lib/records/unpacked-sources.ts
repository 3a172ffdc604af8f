import { tableOfFile } from '../../shared/record-tables.ts';
import { damageWords } from './damage-words.ts';
import { isPackage, openPackage } from './office-package.ts';
import { baseName, chunksOf, type RecordSource } from './record-source.ts';
import { recordEnding } from './sorted-sources.ts';
import { bytesOf } from './source-bytes.ts';
import { sheetTops } from './workbook-rows.ts';
import { zipMembers, type ZipMember } from './zip-archive.ts';

export interface UnpackedSources {
  readonly sources: readonly RecordSource[];
  readonly refused: readonly { readonly name: string; readonly why: string }[];
  /** What should be known of what was taken apart. */
  readonly notes: readonly string[];
}

/**
 * Takes archives apart: each file inside becomes a source of its own, `archive.zip/services.csv`. So does
 * each sheet of records, `fleet.xlsx/services`, in a workbook that is not named after a table itself. All
 * other sources stay as they are.
 */
export async function unpackedSources(sources: readonly RecordSource[]): Promise<UnpackedSources> {
  return together(await Promise.all(sources.map((source) => partsOf(source, archiveParts))));
}

const together = (parts: readonly UnpackedSources[]): UnpackedSources => ({
  sources: parts.flatMap(({ sources }) => sources),
  refused: parts.flatMap(({ refused }) => refused),
  notes: parts.flatMap(({ notes }) => notes),
});

const only = (source: RecordSource): UnpackedSources => ({ sources: [source], refused: [], notes: [] });
const refusal = (name: string, why: string): UnpackedSources => ({ sources: [], refused: [{ name, why }], notes: [] });

type PartsOfArchive = (source: RecordSource, members: readonly ZipMember[]) => Promise<UnpackedSources>;

async function partsOf(source: RecordSource, partsOfArchive: PartsOfArchive): Promise<UnpackedSources> {
  // What cannot be opened is told of when it is read.
  if (!(await isZip(source).catch(() => false))) return only(source);
  try {
    const members = await zipMembers(await bytesOf(source));
    if (!isPackage(members)) return await partsOfArchive(source, members);
    return tableOfFile(source.name) === null ? await sheetsOf(source, members) : only(source);
  } catch (error) {
    if (tableOfFile(source.name) !== null) return only(source);
    return refusal(source.name, damageWords(error));
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

/** What file systems leave beside the files that somebody packed; `./` and `../` before a name hide nothing. */
const leftover = /(^|[\\/])(__MACOSX[\\/]|\.(?!\.?[\\/])|thumbs\.db$|desktop\.ini$)/i;
const workbookEnding = /\.xls[xm]$/i;

async function archiveParts(archive: RecordSource, members: readonly ZipMember[]): Promise<UnpackedSources> {
  const wanted = members.filter(({ name }) => !leftover.test(name));
  if (wanted.length === 0) return refusal(archive.name, 'is an archive with no files in it');
  return together(await Promise.all(wanted.map((member) => memberParts(archive, member, wanted.length === 1))));
}

async function memberParts(archive: RecordSource, member: ZipMember, alone: boolean): Promise<UnpackedSources> {
  const name = `${archive.name}/${member.name}`;
  if (member.problem !== null) return refusal(name, member.problem);
  const within = recordEnding.test(name) || alone ? { within: archive.name } : {};
  const source = { name, size: member.size, stream: () => member.stream(), ...within };
  return workbookEnding.test(name) ? partsOf(source, () => Promise.resolve(only(source))) : only(source);
}

/**
 * Sheets that are named after tables, and all that look like records where there are several: none of
 * them goes unread without a word. A workbook with one such sheet is read as any other file.
 */
async function sheetsOf(source: RecordSource, members: readonly ZipMember[]): Promise<UnpackedSources> {
  const workbook = await openPackage(members);
  if (typeof workbook === 'string') return only(source);
  const likely = new Set((await sheetTops(workbook, {})).flatMap(({ sheet, likely }) => (likely ? [sheet.name] : [])));
  const sheets = workbook.sheets.filter(({ name }) => isTable(name) || likely.has(name));
  if (sheets.length < 2 && !sheets.some(({ name }) => isTable(name))) return only(source);
  const { size, part } = source;
  return {
    sources: sheets.map(({ name }) => ({
      name: `${source.name}/${name}`,
      // Of the whole workbook, which is read from its end for each of its sheets.
      size,
      sheet: name,
      stream: () => source.stream(),
      ...(part ? { part } : {}),
    })),
    refused: [],
    notes: [],
  };
}

const isTable = (sheet: string): boolean => tableOfFile(baseName(sheet)) !== null;
