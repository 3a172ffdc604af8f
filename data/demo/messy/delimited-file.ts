import type { Cell, Grid } from './listing.ts';

export interface DelimitedForm {
  readonly mark: string;
  /** Lines above the headers. */
  readonly top?: readonly string[];
  readonly lineEnd?: '\n' | '\r\n';
  readonly encoding: 'utf-8' | 'utf-8-mark' | 'windows-1252' | 'utf-16le';
}

/** A file's bytes, and the line on which each row of the grid begins. */
export interface WrittenFile {
  readonly bytes: Uint8Array;
  readonly lines: readonly number[];
}

/** Delimited text as programs export it. */
export function delimitedFile({ headers, rows }: Grid, form: DelimitedForm): WrittenFile {
  const { mark, top = [], lineEnd = '\r\n', encoding } = form;
  const lineOf = (cells: readonly Cell[]) => cells.map((cell) => field(cell, mark)).join(mark);
  const lines: number[] = [];
  let line = top.length + 2;
  const texts = rows.map(({ cells, behind }) => {
    const text = lineOf(cells) + behind;
    lines.push(line);
    line += text.split('\n').length;
    return text;
  });
  const all = [...top, lineOf(headers), ...texts, ''].join(lineEnd);
  return { bytes: encoded(all, encoding), lines };
}

function field(cell: Cell, mark: string): string {
  if (cell === null) return '';
  const text = typeof cell === 'object' ? cell.day : String(cell);
  return text.includes(mark) || /["\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function encoded(text: string, encoding: DelimitedForm['encoding']): Uint8Array {
  if (encoding === 'utf-8') return new TextEncoder().encode(text);
  if (encoding === 'utf-8-mark') return new TextEncoder().encode(`\uFEFF${text}`);
  if (encoding === 'windows-1252') return Uint8Array.from(text, (letter) => windowsByte(letter));
  const bytes = new Uint8Array(2 + text.length * 2);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, 0xfeff, true);
  for (let at = 0; at < text.length; at++) view.setUint16(2 + at * 2, text.charCodeAt(at), true);
  return bytes;
}

/** Only letters that Windows-1252 shares with Latin-1 are written. */
function windowsByte(letter: string): number {
  const code = letter.charCodeAt(0);
  if (code > 0xff || (code > 0x7f && code < 0xa0)) throw new RangeError(`no letter of Windows-1252: ${letter}`);
  return code;
}
