/** One or two sentences, the stretches of them that carry their weight, and what else there is to say. */
export interface Answer {
  readonly answer: string;
  readonly emphasis: string[];
  readonly further?: string;
}

/**
 * Reads `**…**` as emphasis; the marks themselves do not stay in the sentence.
 * @param further sentences that the answer stands without, in their order; empty ones are passed over
 */
export function emphasised(marked: string, ...further: readonly string[]): Answer {
  const pieces = marked.split('**');
  const rest = further
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .join(' ');
  return {
    answer: pieces.join(''),
    emphasis: pieces.filter((_, index) => index % 2 === 1),
    ...(rest === '' ? {} : { further: rest }),
  };
}
