import { firmnessWords, type Finding } from '../../../shared/finding.ts';

const firmness = new RegExp(`; (${firmnessWords.join('|')})(?=\\.)`);

/** An answer whose doubts were not all checked yet: it does not say how firm it is. */
export const answerSoFar = (finding: Finding): Finding => ({
  ...finding,
  answer: finding.answer.replace(firmness, ''),
});
