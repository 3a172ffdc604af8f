/** A sentence and the stretches of it that carry its weight. */
export interface Answer {
  readonly answer: string;
  readonly emphasis: string[];
}

/** Reads `**…**` as emphasis; the marks themselves do not stay in the sentence. */
export function emphasised(marked: string): Answer {
  const pieces = marked.split('**');
  return { answer: pieces.join(''), emphasis: pieces.filter((_, index) => index % 2 === 1) };
}
