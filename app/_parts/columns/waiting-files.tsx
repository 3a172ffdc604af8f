'use client';

import { columnDrafts, type DraftsState } from '../../_state/columns/column-drafts.ts';
import { draftSays, waitingAnswer } from './column-words.ts';
import { ConfirmBar } from './confirm-bar.tsx';
import { SourceForm } from './source-form.tsx';

/** Shows a source from its top on, wherever the last one was left. */
function show(place: number): void {
  columnDrafts.show(place);
  requestAnimationFrame(() => {
    const heading = document.querySelector('#source');
    if (heading && heading.getBoundingClientRect().top < 0) heading.scrollIntoView();
  });
}

/** The sources that wait down one side with what confirms them all, the one looked at beside them. */
export function WaitingFiles({ drafts, at }: DraftsState) {
  const { head, rest } = waitingAnswer(drafts);
  const shown = drafts[at];
  return (
    <>
      <p className="answer" aria-live="polite">
        <b>{head}</b>
        {rest}
      </p>
      <div className="sources-and-one">
        <div className="sources-column">
          <ConfirmBar drafts={drafts} />
          <nav className="sources" aria-label="Sources">
            <ol>
              {drafts.map((draft, place) => (
                <li key={draft.source.number}>
                  <button type="button" aria-current={place === at ? 'true' : undefined} onClick={() => show(place)}>
                    <b>{draft.map.source}</b>
                    <small>{draftSays(draft)}</small>
                  </button>
                </li>
              ))}
            </ol>
          </nav>
        </div>
        {shown && <SourceForm key={shown.source.number} draft={shown} />}
      </div>
    </>
  );
}
