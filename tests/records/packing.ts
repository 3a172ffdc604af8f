import { readFileSync } from 'node:fs';
import { crc32, deflateRawSync } from 'node:zlib';

/** A file that another program wrote; `files/README.md` says which. */
export const writtenFile = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`files/${name}`, import.meta.url)));

interface Part {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** A zip archive by APPNOTE 6.3: local headers with the data, the central directory, its end. */
export function zipOf(parts: readonly Part[], told: { readonly size?: number } = {}): Uint8Array {
  const files: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const { name, content } of parts) {
    const bytes = Buffer.from(content as Uint8Array);
    const packed = deflateRawSync(bytes);
    const fields = Buffer.alloc(26);
    fields.writeUInt16LE(20, 0);
    fields.writeUInt16LE(0x800, 2);
    fields.writeUInt16LE(8, 4);
    fields.writeUInt32LE(crc32(bytes), 10);
    fields.writeUInt32LE(packed.length, 14);
    fields.writeUInt32LE(told.size ?? bytes.length, 18);
    fields.writeUInt16LE(Buffer.byteLength(name), 22);
    const at = Buffer.alloc(4);
    at.writeUInt32LE(offset);
    files.push(Buffer.from('PK\u0003\u0004'), fields, Buffer.from(name), packed);
    directory.push(
      Buffer.from('PK\u0001\u0002'),
      Buffer.from([20, 0]),
      fields,
      Buffer.alloc(10),
      at,
      Buffer.from(name),
    );
    offset += 30 + Buffer.byteLength(name) + packed.length;
  }
  const list = Buffer.concat(directory);
  const end = Buffer.alloc(22);
  end.write('PK\u0005\u0006', 'latin1');
  end.writeUInt16LE(parts.length, 8);
  end.writeUInt16LE(parts.length, 10);
  end.writeUInt32LE(list.length, 12);
  end.writeUInt32LE(offset, 16);
  return new Uint8Array(Buffer.concat([...files, list, end]));
}

const relation = (id: string, type: string, target: string): string =>
  `<Relationship Id="${id}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/${type}" Target="${target}"/>`;
const relations = (...all: string[]): string =>
  `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${all.join('')}</Relationships>`;

export interface BookParts {
  /** What stands inside `sheetData`, by the name of the sheet. */
  readonly sheets: Readonly<Record<string, string>>;
  readonly strings?: string;
  readonly styles?: string;
  readonly properties?: string;
}

/** A workbook by ECMA-376 with no more than it must have. */
export function bookOf({ sheets, strings, styles, properties = '' }: BookParts): Uint8Array {
  const names = Object.keys(sheets);
  const listed = names.map((name, at) => `<sheet name="${name}" sheetId="${at + 1}" r:id="s${at}"/>`).join('');
  return zipOf([
    { name: '[Content_Types].xml', content: '<Types/>' },
    { name: '_rels/.rels', content: relations(relation('a', 'officeDocument', 'xl/workbook.xml')) },
    { name: 'xl/workbook.xml', content: `<workbook xmlns:r="r">${properties}<sheets>${listed}</sheets></workbook>` },
    {
      name: 'xl/_rels/workbook.xml.rels',
      content: relations(
        ...names.map((_, at) => relation(`s${at}`, 'worksheet', `/xl/worksheets/page${at}.xml`)),
        relation('t', 'sharedStrings', 'strings.xml'),
        relation('u', 'styles', 'styles.xml'),
      ),
    },
    ...(strings === undefined ? [] : [{ name: 'xl/strings.xml', content: `<sst>${strings}</sst>` }]),
    ...(styles === undefined ? [] : [{ name: 'xl/styles.xml', content: `<styleSheet>${styles}</styleSheet>` }]),
    ...Object.values(sheets).map((rows, at) => ({
      name: `xl/worksheets/page${at}.xml`,
      content: `<worksheet><sheetData>${rows}</sheetData></worksheet>`,
    })),
  ]);
}

/** A row of a sheet, its texts in the cells themselves, without saying where they stand. */
export const plainRow = (...cells: readonly string[]): string =>
  `<row>${cells.map((cell) => `<c t="inlineStr"><is><t>${cell}</t></is></c>`).join('')}</row>`;
