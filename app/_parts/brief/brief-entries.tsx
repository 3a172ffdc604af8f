'use client';

import { useEffect, useRef, useState } from 'react';
import type { WordingWarning } from '../../../lib/brief/wording-checks.ts';
import type { BriefEntry } from '../../../shared/brief.ts';
import { briefStore } from '../../_state/brief/brief-store.ts';
import { useBrief } from '../../_state/brief/use-brief.ts';
import { Entry, type Way } from './brief-entry.tsx';

interface Props {
  readonly entries: readonly BriefEntry[];
  readonly warnings: readonly WordingWarning[];
}

/** The findings in their order: moved by buttons, by keyboard, or by being dragged. */
export function BriefEntries({ entries, warnings }: Props) {
  const { removed } = useBrief();
  const list = useRef<HTMLOListElement>(null);
  const [moved, setMoved] = useState<{ id: string; way: Way; says: string } | null>(null);
  // A button that moves with its finding loses the focus on the way: it gets it back.
  useEffect(() => {
    if (moved === null) return;
    const entry = list.current?.querySelector(`[data-entry="${moved.id}"]`);
    const other = moved.way === 'up' ? 'down' : 'up';
    const button =
      entry?.querySelector<HTMLButtonElement>(`[data-move=${moved.way}]:enabled`) ??
      entry?.querySelector<HTMLButtonElement>(`[data-move=${other}]`);
    button?.focus();
  }, [moved]);
  const move = ({ id, finding }: BriefEntry, to: number, way: Way) => {
    briefStore.move(id, to);
    setMoved({ id, way, says: `“${finding.title}” is now ${to + 1} of ${entries.length}.` });
  };
  if (entries.length === 0 && removed === null)
    return <p className="quiet">No finding yet: open a question and put its answer in.</p>;
  return (
    <>
      <ol className="brief-entries" ref={list}>
        {entries.map((entry, at) => (
          <Entry
            key={entry.id}
            {...{ entry, at, count: entries.length }}
            warnings={warnings.filter(({ field }) => field === entry.id)}
            onMove={(to, way) => move(entry, to, way)}
            onDropped={(id) => {
              const dragged = entries.find((other) => other.id === id);
              if (dragged !== undefined) move(dragged, at, 'up');
            }}
          />
        ))}
      </ol>
      <p role="status" className="quiet">
        {moved?.says}
        {removed !== null && (
          <>
            {' '}
            “{removed.entry.finding.title}” was taken out.{' '}
            <button type="button" className="word" onClick={briefStore.putBack}>
              Put it back
            </button>
          </>
        )}
      </p>
    </>
  );
}
