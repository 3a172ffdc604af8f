'use client';

import { recordSets, type RecordSetState } from '../../_state/record-sets.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

/** What is being done while records open, how far it is, and the way out; it stands where their name will. */
export function OpeningStrip({ opening }: { opening: NonNullable<RecordSetState['opening']> }) {
  const { doing, share } = opening.progress;
  return (
    <div className="opening" data-opening="yes">
      <p role="status">
        Opening {opening.name}: {doing}
        {share !== null && ` (${Math.floor(share * 100)}${percentSign})`}
      </p>
      <progress aria-label="Opening records" {...(share === null ? {} : { value: share })} max={1} />
      <button type="button" className="word" onClick={recordSets.cancel}>
        Cancel
      </button>
    </div>
  );
}
