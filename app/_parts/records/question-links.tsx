'use client';

import type { QuestionId } from '../../../shared/finding.ts';
import { useView } from '../../_state/use-view.ts';
import { questionPage } from '../contents.ts';
import { PageLink } from '../frame/page-link.tsx';

/** The answers that a weakness touches. */
export function QuestionLinks({ questions }: { questions: readonly QuestionId[] }) {
  const { search } = useView();
  return (
    <small>
      Touches:{' '}
      {questions.map((id, at) => (
        <span key={id}>
          {at > 0 && ', '}
          <PageLink path={questionPage(id).path} search={search}>
            {questionPage(id).short}
          </PageLink>
        </span>
      ))}
    </small>
  );
}
