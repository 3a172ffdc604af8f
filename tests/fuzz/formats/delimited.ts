import { pick } from '../pick.ts';
import type { Writer, WrittenAs } from './writer.ts';

const encoder = new TextEncoder();

/** A letter that Windows-1252 does not have is a question mark in it. */
const latin = (text: string): Uint8Array =>
  Uint8Array.from(text, (letter) =>
    letter.charCodeAt(0) < 256 && !/[\u0080-\u009f]/.test(letter) ? letter.charCodeAt(0) : 63,
  );

function wide(text: string, little: boolean): Uint8Array {
  const bytes = new DataView(new ArrayBuffer(text.length * 2));
  for (let at = 0; at < text.length; at++) bytes.setUint16(at * 2, text.charCodeAt(at), little);
  return new Uint8Array(bytes.buffer);
}

export function encoded(text: string, as: WrittenAs): Uint8Array {
  if (as === 'utf-16le' || as === 'utf-16be') return wide(text, as === 'utf-16le');
  return as === 'windows-1252' ? latin(text) : encoder.encode(text);
}

const quoted = (cell: string): string => `"${cell.replaceAll('"', '""')}"`;

/** CSV and its kin by RFC 4180, whatever delimiter, encoding and line end. */
export const delimitedText: Writer = {
  format: 'text',
  weight: 4,
  counts: 'all',
  async write({ headers, rows }, random) {
    const delimiter = pick(random, [',', ',', ',', ';', '\t', '|']);
    const end = pick(random, ['\n', '\n', '\r\n', '\r']);
    const always = random.chance(0.2);
    const write = (cell: string) =>
      always || /["\r\n]|^\s|\s$/.test(cell) || cell.includes(delimiter) ? quoted(cell) : cell;
    const text = [headers, ...rows].map((row) => row.map(write).join(delimiter)).join(end);
    const as = pick<WrittenAs>(random, ['utf-8', 'utf-8', 'utf-8', 'windows-1252', 'utf-16le', 'utf-16be']);
    const mark = as?.startsWith('utf-16') || (as === 'utf-8' && random.chance(0.3)) ? '\ufeff' : '';
    const whole = mark + text + (random.chance(0.8) ? end : '');
    const ending = delimiter === '\t' ? '.tsv' : pick(random, ['.csv', '.txt']);
    // A lone half of a pair has no form in UTF-8, and Windows-1252 has few letters.
    return { ending, bytes: encoded(whole, as), text: as, exact: as !== 'windows-1252' };
  },
};
