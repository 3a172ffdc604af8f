'use client';

import { viewToSearch } from '../../../lib/view/index.ts';
import type { QuestionId } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import { useView } from '../../_state/use-view.ts';
import { questionPage } from '../contents.ts';
import { PageLink } from '../frame/page-link.tsx';

interface Props {
  readonly question: QuestionId;
  /** What the other question is asked for, beside the present view. */
  readonly part: Partial<View>;
  readonly children: string;
}

/** Leads on from an answer to another question about the same lives. */
export function OnwardLink({ question, part, children }: Props) {
  const { view, units } = useView();
  return (
    <p className="onward">
      <PageLink path={questionPage(question).path} search={viewToSearch({ ...view, ...part }, units)}>
        {children}
      </PageLink>
    </p>
  );
}
