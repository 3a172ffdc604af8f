'use client';

import type { QuestionId } from '../../../shared/finding.ts';
import { useView } from '../../_state/use-view.ts';
import { questionPages, type QuestionPage } from '../contents.ts';
import { PageLink } from '../frame/page-link.tsx';

/** The questions before and after this one, in the order of the contents. */
export function NeighbourLinks({ question }: { question: QuestionId }) {
  const { search } = useView();
  const at = questionPages.findIndex(({ id }) => id === question);
  const link = (page: QuestionPage | undefined, way: 'before' | 'after') =>
    page && (
      <PageLink path={page.path} search={search} className={`neighbour-${way}`}>
        <small>{way === 'before' ? 'The question before' : 'The next question'}</small>
        {page.title}
      </PageLink>
    );
  return (
    <nav className="neighbours" aria-label="Neighbouring questions">
      {link(questionPages[at - 1], 'before')}
      {link(questionPages[at + 1], 'after')}
    </nav>
  );
}
