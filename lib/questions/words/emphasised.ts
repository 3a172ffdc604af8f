/** A sentence and the stretches of it that carry its weight; what else belongs to it, to be told more quietly. */
export interface Answer {
  readonly answer: string;
  readonly emphasis: string[];
  readonly further?: string;
}

/**
 * Reads `**…**` as emphasis; the marks themselves do not stay in the sentence.
 * @param further sentences without emphasis that the answer can be read without; `''` for none
 */
export function emphasised(marked: string, further = ''): Answer {
  const pieces = marked.split('**');
  const answer = { answer: pieces.join(''), emphasis: pieces.filter((_, index) => index % 2 === 1) };
  return further.trim() === '' ? answer : { ...answer, further: further.trim() };
}
