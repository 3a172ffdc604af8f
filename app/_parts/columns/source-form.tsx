'use client';

import { memo } from 'react';
import { columnDrafts } from '../../_state/columns/column-drafts.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { withOnly } from '../../_state/columns/edit-columns.ts';
import { ColumnsTable } from './columns-table.tsx';
import { FixedColumns } from './fixed-columns.tsx';
import { MapSettings } from './map-settings.tsx';
import { Outcome } from './outcome.tsx';
import { PlaceInFile } from './place-in-file.tsx';
import { Questions } from './questions.tsx';

/** One source: what is asked of it, what holds for all of it, its columns, and what would become of its rows. */
export const SourceForm = memo(function SourceForm({ draft }: { draft: Draft }) {
  const { source, map, left } = draft;
  const edit = (change: Parameters<typeof columnDrafts.edit>[1]) => columnDrafts.edit(source.number, change);
  return (
    <section className="source" aria-labelledby="source" data-source={map.source}>
      <h2 id="source">{map.source}</h2>
      <p className="quiet">
        {source.files.join(', ')}
        {source.why !== null && `: ${source.why}`}
      </p>
      <div className="source-names">
        <label>
          Called
          <input
            value={map.source}
            autoComplete="off"
            onChange={({ target }) => edit((now) => ({ ...now, source: target.value }))}
          />
        </label>
        <label>
          Only for files named like
          <input
            value={map.recognised.fileName ?? ''}
            placeholder="any name"
            autoComplete="off"
            onChange={({ target }) =>
              edit((now) => ({
                ...now,
                recognised: withOnly(now.recognised, { fileName: target.value.trim() || undefined }),
              }))
            }
          />
        </label>
        <label className="tick-label">
          <input
            type="checkbox"
            checked={left}
            onChange={({ target }) => columnDrafts.leave(source.number, target.checked)}
          />
          Leave {source.files.length === 1 ? 'this file' : 'these files'} unread
        </label>
      </div>
      <PlaceInFile draft={draft} />
      {left ? (
        <p>
          {source.likely
            ? 'It goes unread, as its account on the records page will say.'
            : 'It does not look like records of wheel ends, and goes unread unless you say otherwise.'}
        </p>
      ) : (
        <>
          <Questions draft={draft} />
          <MapSettings {...{ draft, edit }} />
          <ColumnsTable {...{ draft, edit }} />
          <FixedColumns {...{ draft, edit }} />
          <Outcome draft={draft} />
        </>
      )}
    </section>
  );
});
