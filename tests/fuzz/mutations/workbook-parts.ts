import type { Random } from '../../../data/demo/random.ts';
import { pick, whole } from '../pick.ts';
import type { Mutation } from './mutation.ts';
import type { Part } from './parts.ts';

/** One way to spoil the parts of a workbook; `sameRows` where each row is still one. */
export interface WorkbookMutation extends Mutation<readonly Part[]> {
  readonly sameRows?: boolean;
}

const onPart =
  (which: RegExp, change: (xml: string, random: Random) => string) => (parts: readonly Part[], random: Random) => {
    const meant = parts.filter(({ name }) => which.test(name));
    const chosen = pick(random, meant.length > 0 ? meant : parts);
    return parts.map((part) => (part === chosen ? { ...part, content: change(String(part.content), random) } : part));
  };
const sheet = /worksheets/;
const anyXml = /\.(xml|rels)$/;

/** Replaces some of the matches. */
const some = (xml: string, what: RegExp, random: Random, by: (found: string) => string): string => {
  const found = [...xml.matchAll(what)];
  if (found.length === 0) return xml;
  const chosen = pick(random, found);
  return xml.slice(0, chosen.index) + by(chosen[0]) + xml.slice(chosen.index + chosen[0].length);
};

const absurd = ['0', '-1', '1', '1e9', '4294967296', '99999999999999999999', 'NaN', '', 'x', '1.5', '1048577'];
const bomb = `<!DOCTYPE x [<!ENTITY a "${'a'.repeat(100)}">${Array.from({ length: 9 }, (_, at) => `<!ENTITY ${'bcdefghij'[at]} "${`&${'abcdefghi'[at]};`.repeat(20)}">`).join('')}]>`;

export const workbookMutations: readonly WorkbookMutation[] = [
  {
    name: 'workbook: rows of one number',
    sameRows: true,
    apply: onPart(sheet, (xml) =>
      xml
        .replaceAll(/<row[^>]*>/g, (tag, at) =>
          at < 60 ? '<row r="1">' : tag === '<row>' ? '<row r="2">' : '<row r="2">',
        )
        .replaceAll(/ r="[A-Z]+\d+"/g, ''),
    ),
  },
  {
    name: 'workbook: rows without numbers',
    sameRows: true,
    apply: onPart(sheet, (xml) => xml.replaceAll(/<row[^>]*>/g, '<row>')),
  },
  {
    name: 'workbook: rows numbered backward',
    sameRows: true,
    apply: onPart(sheet, (xml) => {
      let number = 90_000;
      return xml.replaceAll(/<row[^>]*>/g, () => `<row r="${number--}">`);
    }),
  },
  {
    name: 'workbook: a row of an absurd number',
    sameRows: true,
    apply: onPart(sheet, (xml, random) => some(xml, /<row[^>]*>/g, random, () => `<row r="${pick(random, absurd)}">`)),
  },
  {
    name: 'workbook: a cell of an absurd place',
    sameRows: true,
    apply: onPart(sheet, (xml, random) =>
      some(
        xml,
        /<c(?: r="[A-Z]+\d+")?/g,
        random,
        () => `<c r="${pick(random, ['A1', 'ZZZZZ9', 'XFD1', 'XFE1', '1', 'a1', '$A$1', 'A'.repeat(5000), 'AAA'])}"`,
      ),
    ),
  },
  {
    name: 'workbook: a cell of another type',
    sameRows: true,
    apply: onPart(sheet, (xml, random) =>
      some(
        xml,
        /<c(?= |>)/g,
        random,
        () => `<c t="${pick(random, ['s', 'b', 'e', 'd', 'str', 'n', 'inlineStr', 'x', ''])}"`,
      ),
    ),
  },
  {
    name: 'workbook: an absurd value',
    sameRows: true,
    apply: onPart(sheet, (xml, random) =>
      some(
        xml,
        /<v>[^<]*<\/v>/g,
        random,
        () => `<v>${pick(random, [...absurd, '1e308', '-5', '#REF!', ' ', '&#0;', '&#x1;', '&unknown;'])}</v>`,
      ),
    ),
  },
  {
    name: 'workbook: a formula',
    sameRows: true,
    apply: onPart(sheet, (xml, random) =>
      some(
        xml,
        /<v>[^<]*<\/v>/g,
        random,
        (v) => `<f>${pick(random, ['1+1', 'HYPERLINK(&quot;x&quot;)', ''])}</f>${random.chance(0.5) ? v : ''}`,
      ),
    ),
  },
  {
    name: 'workbook: a style that is not',
    sameRows: true,
    apply: onPart(sheet, (xml, random) => some(xml, / s="\d+"/g, random, () => ` s="${pick(random, absurd)}"`)),
  },
  {
    name: 'workbook: a tag gone',
    weight: 2,
    apply: onPart(anyXml, (xml, random) => some(xml, /<[^>]*>/g, random, () => '')),
  },
  {
    name: 'workbook: a tag twice',
    weight: 2,
    apply: onPart(anyXml, (xml, random) => some(xml, /<[^>]*>/g, random, (tag) => tag + tag)),
  },
  {
    name: 'workbook: an end of row gone',
    weight: 2,
    apply: onPart(sheet, (xml, random) => some(xml, /<\/row>/g, random, () => '')),
  },
  {
    name: 'workbook: a letter changed',
    weight: 2,
    apply: onPart(anyXml, (xml, random) =>
      some(xml, /[^]/g, random, () => pick(random, ['<', '>', '&', '"', 'x', '/', '\u0000', ' ', '\ud800'])),
    ),
  },
  {
    name: 'workbook: a comment or instruction',
    apply: onPart(anyXml, (xml, random) =>
      some(
        xml,
        /<\w[^>]*>/g,
        random,
        (tag) => tag + pick(random, ['<!-- x -->', '<!--', '<?x ?>', '<?x', '<![CDATA[ <row> ]]>', '<![CDATA[', ']]>']),
      ),
    ),
  },
  {
    name: 'workbook: entities that grow',
    apply: onPart(anyXml, (xml) => `${bomb}${xml.replaceAll(/<(t|v)( [^>]*)?>/g, '$&&j;')}`),
  },
  {
    name: 'workbook: a foreign entity',
    apply: onPart(
      anyXml,
      (xml) => `<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>${xml.replace(/<(t|v)( [^>]*)?>/, '$&&e;')}`,
    ),
  },
  {
    name: 'workbook: deep tags',
    weight: 0.3,
    apply: onPart(sheet, (xml, random) =>
      some(xml, /<c[ >]/g, random, (tag) => `${'<is>'.repeat(whole(random, 1_000, 100_000))}${tag}`),
    ),
  },
  {
    name: 'workbook: an absurd attribute',
    apply: onPart(anyXml, (xml, random) =>
      some(
        xml,
        /="[^"]*"/g,
        random,
        () => `="${pick(random, [...absurd, '../../../x', 'http://example.invalid/', '&#x0;', 'xl/workbook.xml'])}"`,
      ),
    ),
  },
  { name: 'workbook: a part gone', apply: (parts, random) => parts.toSpliced(random.below(parts.length), 1) },
  { name: 'workbook: a part twice', apply: (parts, random) => [...parts, pick(random, parts)] },
  { name: 'workbook: a part blank', apply: onPart(/./, () => '') },
  {
    name: 'workbook: a part of another',
    apply: (parts, random) =>
      parts.map((part) => (random.chance(0.2) ? { ...part, content: pick(random, parts).content } : part)),
  },
];
