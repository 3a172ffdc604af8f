import type { Group } from '../../shared/finding.ts';

const words = ['disagrees', 'agrees', 'too wide'] as const;

/** Whether the ratio within vehicles agrees with the adjusted one, in a word: the finding says it in a note of the group. */
export function otherSideSays({ notes = [] }: Group): (typeof words)[number] | null {
  const note = notes.find((text) => text.startsWith('Other side:'));
  return words.find((word) => note?.includes(word)) ?? null;
}
