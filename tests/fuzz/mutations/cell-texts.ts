import type { Random } from '../../../data/demo/random.ts';
import { pick, whole } from '../pick.ts';

/** Texts that a cell is spoiled with, by what they are. */
export interface CellText {
  readonly name: string;
  readonly weight?: number;
  of(random: Random, was: string): string;
}

const markup = [
  '<script>globalThis.ran=1</script>',
  '<img src=x onerror="globalThis.ran=1">',
  '<svg/onload=globalThis.ran=1>',
  '"><iframe src="javascript:globalThis.ran=1">',
  '</title></style></textarea><b>bold</b>',
  '<!-- ',
  '&lt;script&gt;&#x3c;b&#62;',
  ']]><c><v>1</v></c>',
  '${globalThis.ran=1}{{ran}}<%= ran %>',
];
const formulas = [
  '=1+1',
  '=HYPERLINK("http://example.invalid","x")',
  '+1',
  '-1',
  '@SUM(A1:A9)',
  "'=1",
  "=cmd|' /C x'!A0",
  '\t=1',
  '\r=1',
  "''-1",
];
const controls = [
  '\u0000',
  '\u0001',
  '\u0007',
  '\u0008',
  '\u000b',
  '\u000c',
  '\u001a',
  '\u001b[31m',
  '\u007f',
  '\u0085',
  '\u2028',
  '\u202e',
  '\u200b',
  '\u0000\u0000',
];
const numbers = [
  '1e308',
  '-1e308',
  '1e309',
  'NaN',
  'Infinity',
  '-0',
  '1e-400',
  '9007199254740993',
  '99999999999999999999999999',
  '0x10',
  '1_000',
  '1,5',
  '1.5.5',
  '--1',
  '٣',
  '１',
  '½',
  '+',
  '.',
  '1e',
  '0'.repeat(450),
  '00000000000000000001',
];
const days = [
  '9999-99-99',
  '0000-00-00',
  '2024-02-30',
  '2023-02-29',
  '1949-12-31',
  '2100-01-01',
  '-2024-01-01',
  '2024-1-1',
  '2024-01-01T99:99',
  '2024-01-01T10:00:00Z',
  '2024-01-01 ',
  '1/2/3',
  '99999',
  '2958466',
  '+002024-01-01',
  '2024-01-0١',
];
const brokenLetters = [
  '\ud800',
  '\udc00',
  'a\udbffb',
  '\ufffd',
  '\ufffe',
  '\uffff',
  '\u{10ffff}',
  'é',
  'ﬀ',
  'İ',
  'ß',
  'Ω',
];
const blanks = ['', ' ', '\u00a0', '\u3000', '\t', '\ufeff', '\u2003 '];
const quotes = ['"', '""', '"""', '"a', 'a"', 'a"b', '","', '"\n', "'", '“”', ';', ',', '|', '\t', ',,,,', ';;;'];
const lines = [
  '\n',
  '\r',
  '\r\n',
  'a\nb',
  'a\r\n\r\nb',
  '\n\n\n',
  'x\ry',
  '\n,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,',
  '\n"',
];
const names = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'null',
  'undefined',
  'true',
  'NULL',
  '#REF!',
  '#N/A',
  '_x0041_',
  '_x005F_',
  '../../etc/passwd',
  'C:\\x',
  '$(id)',
  "'; drop table units; --",
  '%s%n',
  '\\',
  '\\"',
  '\\u0000',
];

const oneOf = (texts: readonly string[]) => (random: Random, was: string) => {
  const text = pick(random, texts);
  return random.chance(0.5)
    ? text
    : was.slice(0, random.below(was.length + 1)) + text + was.slice(random.below(was.length + 1));
};

export const cellTexts: readonly CellText[] = [
  { name: 'HTML', of: oneOf(markup), weight: 1.5 },
  { name: 'formula', of: oneOf(formulas), weight: 1.5 },
  { name: 'control character', of: oneOf(controls), weight: 1.5 },
  { name: 'absurd number', of: oneOf(numbers), weight: 1.5 },
  { name: 'absurd day', of: oneOf(days), weight: 1.5 },
  { name: 'broken letter', of: oneOf(brokenLetters) },
  { name: 'blank', of: (random) => pick(random, blanks) },
  { name: 'quote or delimiter', of: oneOf(quotes) },
  { name: 'line end', of: oneOf(lines) },
  { name: 'name of a program', of: oneOf(names) },
  {
    name: 'long text',
    weight: 0.5,
    of: (random) => pick(random, ['x', 'ab,', '"', 'é', '\u{1f600}', '\n', '<b>']).repeat(whole(random, 1_000, 60_000)),
  },
  {
    name: '10 MB',
    weight: 0.04,
    of: (random) => pick(random, ['x', '"', 'é', '1', 'a;']).repeat(random.chance(0.5) ? 10_000_000 : 1_100_000),
  },
];
