'use client';

import { useCallback, type ReactNode } from 'react';
import type { DrawFigure } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { useView } from '../../_state/use-view.ts';
import { QuestionFigure } from '../figure/question-figure.tsx';
import { lookedInto } from '../scope/narrow.ts';

interface Props {
  readonly finding: Finding;
  readonly units: UnitSystem;
  readonly height: number;
  readonly draw: DrawFigure;
  /** What it shows, in a sentence: its caption, and its name for those who do not see it. */
  readonly says: string;
}

/** A further figure of a finding with its caption. */
export function FurtherFigure({ says, ...drawn }: Props) {
  const { change } = useView();
  const narrow = useCallback(
    (by: Readonly<Record<string, string>>) => change((view) => lookedInto(view, by)),
    [change],
  );
  return (
    <figure>
      <QuestionFigure {...{ ...drawn, says }} onNarrow={narrow} />
      <figcaption>{says}</figcaption>
    </figure>
  );
}

/** A part of a question page under a heading of its own. */
export const Aspect = ({ id, title, children }: { id: string; title: string; children: ReactNode }) => (
  <section className="aspect" aria-labelledby={id}>
    <h2 id={id}>{title}</h2>
    {children}
  </section>
);
