/** A cell as words are compared: outer spaces gone, inner ones single, no capitals. */
export const wordOf = (text: string): string => text.trim().replaceAll(/\s+/g, ' ').toLowerCase();

/** What becomes of a cell's text; undefined where nothing is said of it. */
export type WordChange = (text: string) => string | undefined;

/**
 * Words of a map that mean others. A `*` stands for any text: such a pattern counts where no whole
 * word does, the first of them before the others.
 */
export function wordChange(words: Readonly<Record<string, string>> = {}): WordChange {
  const whole = new Map<string, string>();
  const patterns: { readonly pattern: RegExp; readonly meant: string }[] = [];
  for (const [word, meant] of Object.entries(words)) {
    if (word.includes('*')) patterns.push({ pattern: patternOf(word), meant });
    else whole.set(wordOf(word), meant);
  }
  return (text) => {
    const word = wordOf(text);
    return whole.get(word) ?? patterns.find(({ pattern }) => pattern.test(word))?.meant;
  };
}

/** A text with `*` for any characters and `?` for one, as a whole and whatever its capitals. */
export function patternOf(text: string): RegExp {
  const escaped = wordOf(text)
    .replaceAll(/[.+^${}()|[\]\\]/g, String.raw`\$&`)
    .replaceAll('*', '.*')
    .replaceAll('?', '.');
  return new RegExp(`^${escaped}$`, 'su');
}

/** Whole cells that mean not known. */
export function blanksOf(blanks: readonly string[] = []): (text: string) => boolean {
  const known = new Set(blanks.map(wordOf));
  return known.size === 0 ? (text) => text === '' : (text) => text === '' || known.has(wordOf(text));
}
