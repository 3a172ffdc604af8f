import { inOrder } from '../../../lib/charts/index.ts';

/** A sentence with the stretches that carry its weight set in bold; each is a literal part of it. */
export function Emphasised({ text, emphasis }: { text: string; emphasis: readonly string[] }) {
  const parts: { text: string; strong: boolean; at: number }[] = [];
  let from = 0;
  for (const stretch of inOrder(text, emphasis)) {
    parts.push({ text: text.slice(from, stretch.start), strong: false, at: from });
    parts.push({ text: text.slice(stretch.start, stretch.end), strong: true, at: stretch.start });
    from = stretch.end;
  }
  parts.push({ text: text.slice(from), strong: false, at: from });
  return parts
    .filter((part) => part.text !== '')
    .map((part) => (part.strong ? <b key={part.at}>{part.text}</b> : <span key={part.at}>{part.text}</span>));
}
