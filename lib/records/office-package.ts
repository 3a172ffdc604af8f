import { readableFormats } from './readable-formats.ts';
import { textOfChunks } from './record-source.ts';
import { openWorkbook, type Workbook } from './workbook.ts';
import type { ZipMember } from './zip-archive.ts';

const has = (members: readonly ZipMember[], path: RegExp): boolean => members.some(({ name }) => path.test(name));

/** Whether an archive is one document of an office program rather than files packed together. */
export const isPackage = (members: readonly ZipMember[]): boolean =>
  has(members, /^\[content_types\]\.xml$/i) || has(members, /^mimetype$/) || has(members, /^Index\/Document\.iwa$/);

/** Opens an archive that is a workbook; says what it is where it is none. */
export async function openPackage(members: readonly ZipMember[]): Promise<Workbook | string> {
  if (has(members, /(^|\/)workbook\.xml$/i)) return openWorkbook(members);
  return `is ${await kindOf(members)}; ${readableFormats}`;
}

async function kindOf(members: readonly ZipMember[]): Promise<string> {
  if (has(members, /(^|\/)workbook\.bin$/i)) return 'a workbook of the binary kind (.xlsb)';
  if (has(members, /^word\//i)) return 'a text document';
  if (has(members, /^ppt\//i)) return 'a set of slides';
  if (has(members, /\.iwa$/i)) return 'a document of another office program';
  const mime = members.find(({ name, size }) => name === 'mimetype' && size < 200);
  const said = mime && mime.problem === null ? await textOfChunks(mime.stream()) : '';
  if (said.includes('opendocument.spreadsheet')) return 'an OpenDocument spreadsheet (.ods)';
  if (said.includes('opendocument')) return 'an OpenDocument document';
  return members.length === 0 ? 'an empty archive' : 'an archive in an archive';
}
