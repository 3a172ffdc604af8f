import { bookOf } from '../../records/packing.ts';
import type { TextTable } from '../valid-tables.ts';
import type { Random } from '../../../data/demo/random.ts';
import type { Writer } from './writer.ts';

const number = /^(0|[1-9]\d{0,11})(\.\d{1,3})?$/;
const day = /^(19[5-9]|20[0-9])\d-\d\d-\d\d$/;

/** What XML cannot hold is written `_x0001_`, ECMA-376 part 1, 22.9.2.19. */
const escaped = (text: string): string =>
  text
    .replaceAll(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_')
    .replaceAll(
      /[\u0000-\u0008\u000b\u000c\u000d\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
      (letter) => `_x${letter.charCodeAt(0).toString(16).padStart(4, '0')}_`,
    )
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');

export const columnName = (index: number): string =>
  (index >= 26 ? columnName(Math.floor(index / 26) - 1) : '') + String.fromCharCode(65 + (index % 26));

const serial = (iso: string): number => (Date.parse(iso) - Date.UTC(1899, 11, 30)) / 86_400_000;

interface Ways {
  readonly shared: boolean;
  readonly typed: boolean;
  readonly placed: boolean;
}

function cellOf(text: string, place: string, texts: Map<string, number>, { shared, typed, placed }: Ways): string {
  const at = placed ? ` r="${place}"` : '';
  if (text === '') return placed ? '' : '<c/>';
  if (typed && number.test(text) && String(Number(text)) === text) return `<c${at}><v>${text}</v></c>`;
  if (typed && day.test(text) && serial(text) > 60 && new Date(text).toISOString().startsWith(text))
    return `<c${at} s="1"><v>${serial(text)}</v></c>`;
  if (!shared) return `<c${at} t="inlineStr"><is><t xml:space="preserve">${escaped(text)}</t></is></c>`;
  if (!texts.has(text)) texts.set(text, texts.size);
  return `<c${at} t="s"><v>${texts.get(text)}</v></c>`;
}

export function bookOfTables(tables: Readonly<Record<string, TextTable>>, random: Random): Uint8Array {
  const ways: Ways = { shared: random.chance(0.6), typed: random.chance(0.5), placed: random.chance(0.7) };
  const texts = new Map<string, number>();
  const sheetOf = ({ headers, rows }: TextTable): string =>
    [headers, ...rows]
      .map((row, at) => {
        const cells = row.map((cell, column) => cellOf(cell, `${columnName(column)}${at + 1}`, texts, ways));
        return `<row${ways.placed ? ` r="${at + 1}"` : ''}>${cells.join('')}</row>`;
      })
      .join('');
  const sheets = Object.fromEntries(Object.entries(tables).map(([name, table]) => [name, sheetOf(table)]));
  const strings = [...texts.keys()].map((text) => `<si><t xml:space="preserve">${escaped(text)}</t></si>`).join('');
  const styles = '<cellXfs><xf/><xf numFmtId="14"/></cellXfs>';
  return bookOf({ sheets, styles, ...(ways.shared ? { strings } : {}) });
}

/** A workbook by ECMA-376 with one sheet. */
export const workbook: Writer = {
  format: 'workbook',
  weight: 3,
  counts: 'filled',
  async write(table, random) {
    const bytes = bookOfTables({ Sheet: table }, random);
    return { ending: '.xlsx', bytes, text: null, exact: true };
  },
};
