import type { Finding } from '../../../shared/finding.ts';

/** How much of a long answer the front page has room for. */
const mostSentences = 2;

/** The answer, of the long ones the first sentences: their pages have the rest. */
export function glanceText({ question, answer }: Finding): string {
  if (question !== 'causes' && question !== 'shops' && question !== 'ahead') return answer;
  return answer
    .split(/(?<=[.?!]) (?=\p{Lu})/u)
    .slice(0, mostSentences)
    .join(' ');
}
