'use client';

import { useColumnDrafts } from '../../_state/columns/use-column-drafts.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { KeptMaps } from './kept-maps.tsx';
import { WaitingFiles } from './waiting-files.tsx';

/** How the columns of files that are not in our layout become ours; and the column maps that were confirmed before. */
export function ColumnsPage() {
  const { waiting } = useRecordSet();
  const drafts = useColumnDrafts();
  return (
    <article className="column-maps" data-waiting={waiting?.asked.length ?? 0}>
      <h1>What do their columns mean?</h1>
      {waiting === null ? (
        <p className="answer">
          No file waits for an answer. Files in our own layout open at once; others stop here until somebody has said
          what their columns mean, once for each source.
        </p>
      ) : (
        drafts.of === waiting && <WaitingFiles {...drafts} />
      )}
      <KeptMaps waiting={waiting !== null} />
    </article>
  );
}
