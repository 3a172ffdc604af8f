import type { ReactNode } from 'react';
import type { Finding } from '../../../shared/finding.ts';
import { answerCounts } from './answer-counts.ts';
import { inOrder } from '../../../lib/charts/index.ts';
import { CountLink } from './lives-link.tsx';

interface Props {
  readonly finding: Finding;
  readonly text: string;
  readonly emphasis: readonly string[];
}

/** A sentence of a finding: what carries its weight in bold, its counts leading to the lives they count. */
export function ToldAnswer({ finding, text, emphasis }: Props) {
  const strong = inOrder(text, emphasis);
  const counts = answerCounts(text, finding);
  const cuts = [...new Set([0, text.length, ...[...strong, ...counts].flatMap(({ start, end }) => [start, end])])];
  const ordered = cuts.sort((a, b) => a - b);
  return ordered.slice(0, -1).map((start, place) => {
    const end = ordered[place + 1] ?? text.length;
    const within = (span: { start: number; end: number }) => span.start <= start && end <= span.end;
    const count = counts.find(within);
    const piece: ReactNode =
      count === undefined ? (
        text.slice(start, end)
      ) : (
        <CountLink finding={finding} group={count.group} counted={count.counted}>
          {text.slice(start, end)}
        </CountLink>
      );
    return strong.some(within) ? <b key={start}>{piece}</b> : <span key={start}>{piece}</span>;
  });
}
