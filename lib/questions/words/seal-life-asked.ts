import type { Group } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import type { Comparison } from '../comparison.ts';
import type { ComponentWords } from './component-words.ts';
import type { Wording } from './wording.ts';

/** What the sentences about lives are made from. */
export interface SealLifeAnswer {
  readonly view: View;
  readonly words: Wording;
  readonly thing: ComponentWords;
  readonly groups: readonly Group[];
  readonly comparison: Comparison | null;
  /** Indices of the groups that can be compared, the shortest-lived first. */
  readonly worstFirst: readonly number[];
  /** Whether one Weibull line stays within the limits of the curve; asked of one group alone. */
  readonly oneShape: boolean;
}
