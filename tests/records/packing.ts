import { readFileSync } from 'node:fs';
import { zipFile } from '../../data/demo/messy/zip-file.ts';

/** A file that another program wrote; `files/README.md` says which. */
export const writtenFile = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`files/${name}`, import.meta.url)));

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
  return zipFile([
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
