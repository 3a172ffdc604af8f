import type { Random } from '../../../data/demo/random.ts';
import { pick, whole } from '../pick.ts';
import type { Mutation } from './mutation.ts';

export type TextMutation = Mutation<string>;

const anywhere = (text: string, random: Random): number => random.below(text.length + 1);
/** Behind the headers, so that the file stays one of its table. */
const below = (text: string, random: Random): number => {
  const head = text.search(/[\r\n]/) + 1;
  return head + random.below(text.length - head + 1);
};
const inserted = (text: string, at: number, put: string, gone = 0): string =>
  text.slice(0, at) + put + text.slice(at + gone);
const insertion = (name: string, puts: readonly string[], weight = 1): TextMutation => ({
  name: `text: ${name}`,
  weight,
  apply(text, random) {
    let all = text;
    for (let times = whole(random, 1, 3); times > 0; times--)
      all = inserted(all, below(all, random), pick(random, puts));
    return all;
  },
});

/** Ways to spoil a text before it is encoded: every line of it must come out again. */
export const textMutations: readonly TextMutation[] = [
  insertion('a quote', ['"'], 3),
  insertion('quotes', ['""', '"""', '" "', '"x', '\n"', '"\n'], 2),
  insertion('delimiters', [',', ';', '\t', '|', ',,,,,,,,'], 2),
  insertion('line ends', ['\n', '\r', '\r\n', '\n\n\n', '\n\r'], 2),
  insertion('a byte order mark', ['\ufeff'], 1),
  insertion('control characters', ['\u0000', '\u0001', '\u001a', '\u000c', '\u000b', '\u001b', '\u0085', '\u2028']),
  insertion('markup', ['<script>ran=1</script>', '<img src=x onerror=ran=1>', '<?xml version="1.0"?>']),
  insertion('broken letters', ['\ud800', '\udfff', '\ufffd', 'é', '\u{1f600}']),
  insertion('brackets', ['{', '}', '[', ']', '{"a":', ':', '\\', '[[[[[[[['], 0.7),
  { name: 'text: a quote at the end', apply: (text) => `${text.trimEnd()}\n"` },
  {
    name: 'text: a quote opened in the last line',
    apply: (text) => inserted(text, text.trimEnd().search(/[^\r\n]*$/), '"'),
  },
  {
    name: 'text: line ends of several kinds',
    apply: (text, random) => text.replaceAll(/\r\n|\r|\n/g, () => pick(random, ['\n', '\r\n', '\r'])),
  },
  {
    name: 'text: a line cut',
    apply(text, random) {
      const at = below(text, random);
      return text.slice(0, at) + text.slice(at).replace(/^[^\r\n]*/, '');
    },
  },
  { name: 'text: cut short', apply: (text, random) => text.slice(0, below(text, random)) },
  {
    name: 'text: a stretch gone',
    apply: (text, random) => inserted(text, below(text, random), '', whole(random, 1, 60)),
  },
  {
    name: 'text: lines above',
    apply: (text, random) =>
      pick(random, ['Export\n', 'Made by, somebody\n\n', 'sep=,\n', '\n\n\n', '"\n', '<b>\n']) + text,
  },
  {
    name: 'text: a letter of the headers changed',
    weight: 0.5,
    apply: (text, random) =>
      inserted(
        text,
        random.below(Math.max(1, text.search(/[\r\n]/))),
        pick(random, ['"', ',', ';', 'x', '\u0000', ' ', '\n']),
        random.below(2),
      ),
  },
  {
    name: 'text: deep nesting',
    weight: 0.2,
    apply: (text, random) =>
      inserted(text, anywhere(text, random), pick(random, ['[', '{"a":']).repeat(whole(random, 100, 100_000))),
  },
  {
    name: 'text: a line of megabytes',
    weight: 0.08,
    apply: (text, random) =>
      inserted(
        text,
        below(text, random),
        pick(random, ['x', ',', '"', '\n']).repeat(whole(random, 1_000_000, 6_000_000)),
      ),
  },
  {
    name: 'text: a hundred thousand lines',
    weight: 0.08,
    apply: (text, random) =>
      inserted(text, below(text, random), pick(random, ['"a\n', 'x\n', '"\n', ',"\r']).repeat(100_000)),
  },
];
