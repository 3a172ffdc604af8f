import type { Cell, Grid } from './listing.ts';
import { zipFile } from './zip-file.ts';

/** A sheet of a workbook: titles above the headers, the first of them over all columns. */
export interface Sheet {
  readonly name: string;
  readonly top: readonly (readonly string[])[];
  readonly grid: Grid;
}

/** Row in the sheet on which each row of the grid stands. */
export const sheetLines = ({ top, grid }: Sheet): number[] => grid.rows.map((_, at) => top.length + 2 + at);

const xml = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const header = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const packages = 'http://schemas.openxmlformats.org/package/2006';

/** Days as spreadsheets count them, from the last of December 1899. */
export const serialOf = (iso: string): number => (Date.parse(iso) - Date.UTC(1899, 11, 30)) / 86_400_000;

function columnName(at: number): string {
  const letter = String.fromCharCode(65 + (at % 26));
  return at < 26 ? letter : columnName(Math.floor(at / 26) - 1) + letter;
}

class SharedTexts {
  readonly #places = new Map<string, number>();

  placeOf(text: string): number {
    const place = this.#places.get(text) ?? this.#places.size;
    this.#places.set(text, place);
    return place;
  }

  get content(): string {
    const items = [...this.#places.keys()].map((text) => `<si><t xml:space="preserve">${xml(text)}</t></si>`);
    return `${header}<sst xmlns="${main}">${items.join('')}</sst>`;
  }
}

/** Styles by their place: 1 a day, 2 a number of four digits with its zeros shown. */
const styles = `${header}<styleSheet xmlns="${main}"><numFmts count="1"><numFmt numFmtId="164" formatCode="0000"/></numFmts><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/><xf numFmtId="164" applyNumberFormat="1"/></cellXfs></styleSheet>`;

function cellXml(cell: Cell, place: string, texts: SharedTexts): string {
  if (cell === null || cell === '') return '';
  if (typeof cell === 'number') return `<c r="${place}"><v>${cell}</v></c>`;
  if (typeof cell === 'object') return `<c r="${place}" s="1"><v>${serialOf(cell.day)}</v></c>`;
  // Somebody typed a unit's number into a column of numbers, and had its zeros shown.
  if (/^0\d{3}$/.test(cell)) return `<c r="${place}" s="2"><v>${Number(cell)}</v></c>`;
  return `<c r="${place}" t="s"><v>${texts.placeOf(cell)}</v></c>`;
}

function sheetXml({ top, grid }: Sheet, texts: SharedTexts): string {
  const rows = [...top, grid.headers, ...grid.rows.map(({ cells }) => cells)].map((cells: readonly Cell[], at) => {
    const row = cells.map((cell, column) => cellXml(cell, `${columnName(column)}${at + 1}`, texts)).join('');
    return row === '' ? '' : `<row r="${at + 1}">${row}</row>`;
  });
  const merged = `<mergeCells count="1"><mergeCell ref="A1:${columnName(grid.headers.length - 1)}1"/></mergeCells>`;
  return `${header}<worksheet xmlns="${main}"><sheetData>${rows.join('')}</sheetData>${top.length > 0 ? merged : ''}</worksheet>`;
}

const relations = (all: readonly (readonly [id: string, type: string, target: string])[]): string =>
  `${header}<Relationships xmlns="${packages}/relationships">${all
    .map(([id, type, target]) => `<Relationship Id="${id}" Type="${office}/${type}" Target="${target}"/>`)
    .join('')}</Relationships>`;

const kind = (part: string, type: string): string =>
  `<Override PartName="/xl/${part}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${type}+xml"/>`;

/** A workbook by ECMA-376, as spreadsheets write it: texts shared, days as numbers with a style. */
export function workbookFile(sheets: readonly Sheet[]): Uint8Array {
  const texts = new SharedTexts();
  const pages = sheets.map((sheet) => sheetXml(sheet, texts));
  const listed = sheets.map(({ name }, at) => `<sheet name="${xml(name)}" sheetId="${at + 1}" r:id="rId${at + 1}"/>`);
  const types = `${header}<Types xmlns="${packages}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>${kind('workbook', 'sheet.main')}${pages.map((_, at) => kind(`worksheets/sheet${at + 1}`, 'worksheet')).join('')}${kind('styles', 'styles')}${kind('sharedStrings', 'sharedStrings')}</Types>`;
  return zipFile([
    { name: '[Content_Types].xml', content: types },
    { name: '_rels/.rels', content: relations([['rId1', 'officeDocument', 'xl/workbook.xml']]) },
    {
      name: 'xl/workbook.xml',
      content: `${header}<workbook xmlns="${main}" xmlns:r="${office}"><sheets>${listed.join('')}</sheets></workbook>`,
    },
    {
      name: 'xl/_rels/workbook.xml.rels',
      content: relations([
        ...pages.map((_, at) => [`rId${at + 1}`, 'worksheet', `worksheets/sheet${at + 1}.xml`] as const),
        ['rIdStyles', 'styles', 'styles.xml'],
        ['rIdTexts', 'sharedStrings', 'sharedStrings.xml'],
      ]),
    },
    ...pages.map((content, at) => ({ name: `xl/worksheets/sheet${at + 1}.xml`, content })),
    { name: 'xl/styles.xml', content: styles },
    { name: 'xl/sharedStrings.xml', content: texts.content },
  ]);
}
