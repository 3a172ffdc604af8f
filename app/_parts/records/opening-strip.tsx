'use client';

import { recordSets } from '../../_state/record-sets.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';

/** What is being done while records open, how far it is, and the way out. */
export function OpeningStrip() {
  const { opening } = useRecordSet();
  if (opening === null) return <div role="status" className="opening" data-opening="no" />;
  const { doing, share } = opening.progress;
  return (
    <div role="status" className="opening" data-opening="yes">
      <p>
        Opening {opening.name}: {doing}
        {share !== null && ` (${Math.floor(share * 100)} %)`}
      </p>
      <progress aria-label="Opening records" {...(share === null ? {} : { value: share })} max={1} />
      <button type="button" className="word" onClick={recordSets.cancel}>
        Cancel
      </button>
    </div>
  );
}
