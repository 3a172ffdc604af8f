import { pagesAfter, pagesBefore, questionPages } from '../contents.ts';

export type ShortcutAct = { readonly is: 'list' | 'search' | 'put' } | { readonly is: 'go'; readonly path: string };

/** A key as the browser tells it. */
export interface PressedKey {
  readonly key: string;
  readonly ctrlKey?: boolean;
  readonly metaKey?: boolean;
  readonly altKey?: boolean;
}

/** What a key came to: something to do, a key to wait for, or nothing. */
export interface Pressed {
  readonly act: ShortcutAct | null;
  readonly waiting: boolean;
}

/** After `g`: the letter of each page. */
const letters: Readonly<Record<string, string>> = {
  '/': 'g',
  '/records/': 'r',
  '/seal-life/': 's',
  '/mean-miles/': 'o',
  '/contamination/': 'w',
  '/detection/': 'd',
  '/repeats/': 'a',
  '/causes/': 'v',
  '/shops/': 'h',
  '/dose/': 'u',
  '/rules/': 'k',
  '/renewal/': 'n',
  '/ahead/': 'e',
  '/after-change/': 'c',
  '/savings/': 'f',
  '/lives/': 'l',
  '/procedure/': 'p',
  '/brief/': 'b',
  '/methods/': 'm',
};

/** Every page with the letter that leads to it; a page without one is not led to by keys. */
export const letteredPages: readonly { readonly path: string; readonly short: string; readonly letter: string }[] = [
  ...pagesBefore,
  ...questionPages,
  ...pagesAfter,
].flatMap(({ path, short }) => {
  const letter = letters[path];
  return letter === undefined ? [] : [{ path, short, letter }];
});

const nothing: Pressed = { act: null, waiting: false };
const single: Readonly<Record<string, ShortcutAct>> = {
  '?': { is: 'list' },
  '/': { is: 'search' },
  b: { is: 'put' },
};

/**
 * What a key does, by whether `g` came right before it. Keys with Ctrl, Alt or the command key are the
 * browser's own.
 */
export function pressed({ key, ctrlKey, metaKey, altKey }: PressedKey, afterG: boolean): Pressed {
  if (ctrlKey || metaKey || altKey) return nothing;
  if (afterG) {
    const page = letteredPages.find(({ letter }) => letter === key.toLowerCase());
    return page ? { act: { is: 'go', path: page.path }, waiting: false } : nothing;
  }
  if (key === 'g') return { act: null, waiting: true };
  const act = Object.hasOwn(single, key) ? single[key] : undefined;
  return act ? { act, waiting: false } : nothing;
}
