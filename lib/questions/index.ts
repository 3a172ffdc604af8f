import type { Finding, QuestionId } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import type { LivesSource } from '../lives/index.ts';
import { afterChange } from './after-change/after-change.ts';
import { ahead } from './ahead/ahead.ts';
import type { Asking } from './asking.ts';
import { causes } from './causes/causes.ts';
import { contamination } from './contamination.ts';
import { detection } from './detection/detection.ts';
import { dose } from './dose/dose.ts';
import { meanMiles } from './mean-miles.ts';
import { savings } from './savings/savings.ts';
import { renewal } from './renewal/renewal.ts';
import { repeats } from './repeats/repeats.ts';
import { rules } from './rules/rules.ts';
import { sealLife } from './seal-life.ts';
import { shops } from './shops.ts';
import { wording } from './words/wording.ts';

export { changeFingerprint } from './after-change/change-fingerprint.ts';
export { listLives, type LivesCounted, type LivesListed } from './life-list/list-lives.ts';
export { listedLives, type ListedLife } from './life-list/listed-life.ts';

export interface AskOptions {
  /** Units of the sentences; every distance of the finding stays in miles. */
  readonly unitSystem?: UnitSystem;
  /** Told how far a long question is. */
  readonly onProgress?: Asking['onProgress'];
  /** Given the answer as it stands before its slow parts. */
  readonly onFirst?: Asking['onFirst'];
  /** Changes written down, beside those the record set keeps. */
  readonly changes?: Asking['changes'];
}

const questions: Readonly<Record<QuestionId, (asking: Asking) => Promise<Finding>>> = {
  'seal-life': sealLife,
  'mean-miles': meanMiles,
  contamination,
  shops,
  causes,
  detection,
  rules,
  dose,
  repeats,
  'after-change': afterChange,
  savings,
  renewal,
  ahead,
};

/** Asked in miles alone: what wears is miles, and so is what a procedure counts. */
const inMiles: ReadonlySet<QuestionId> = new Set(['renewal', 'ahead']);

/**
 * Answers one question about the lives of a source under a view.
 * @throws the signal's reason once aborted; what the engine throws
 */
export function ask(
  source: LivesSource,
  question: QuestionId,
  view: View,
  signal?: AbortSignal,
  options: AskOptions = {},
): Promise<Finding> {
  const { unitSystem, onProgress, onFirst, changes } = options;
  const asked: View = inMiles.has(question) ? { ...view, axis: 'miles' } : view;
  const words = wording(unitSystem, asked.axis);
  return questions[question]({ source, view: asked, words, signal, onProgress, onFirst, changes });
}
