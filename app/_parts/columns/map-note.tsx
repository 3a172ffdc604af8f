'use client';

import { recordSets } from '../../_state/record-sets.ts';
import { useColumnMaps } from '../../_state/use-column-maps.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';

/** By which column map a file was read, since when that is kept, and the way to change it. */
export function MapNote({ source }: { source: string }) {
  const { kept } = useColumnMaps();
  const { open, opening } = useRecordSet();
  const saved = kept?.find(({ map }) => map.source === source);
  return (
    <span data-read-by={source}>
      Read by the map of {source}
      {saved && `, saved ${saved.savedOn.slice(0, 10)}`}.{' '}
      {open?.files && (
        <button
          type="button"
          className="word"
          disabled={opening !== null}
          onClick={() => void recordSets.askAgain(source)}
        >
          Change<span className="unseen"> the map of {source}</span>
        </button>
      )}
    </span>
  );
}
