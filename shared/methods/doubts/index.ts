import { changeDoubts } from './change-doubts.ts';
import { comparisonDoubts } from './comparison-doubts.ts';
import type { DoubtWords } from './doubt-words.ts';
import { lifeDoubts } from './life-doubts.ts';
import { recordDoubts } from './record-doubts.ts';

/** Every name that a doubt can have: none can be given without words here. */
export type DoubtName =
  keyof typeof recordDoubts | keyof typeof lifeDoubts | keyof typeof comparisonDoubts | keyof typeof changeDoubts;

export const doubtParts: readonly { readonly name: string; readonly doubts: Readonly<Record<string, DoubtWords>> }[] = [
  { name: 'Of the records', doubts: recordDoubts },
  { name: 'Of the lives', doubts: lifeDoubts },
  { name: 'Of comparisons', doubts: comparisonDoubts },
  { name: 'Of plans and changes', doubts: changeDoubts },
];

const named: ReadonlySet<string> = new Set(doubtParts.flatMap(({ doubts }) => Object.keys(doubts)));

/** Where the methods page explains a doubt; null of one that a finding from elsewhere brought along. */
export const doubtAnchor = (name: string): string | null =>
  named.has(name) ? `doubt-${name.toLowerCase().replaceAll(/[^a-z]+/g, '-')}` : null;
