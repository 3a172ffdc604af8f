'use client';

import { recordSets, type RecordSetState } from '../../_state/record-sets.ts';

/** That the lives are being rebuilt, with the way to stop it. */
export const RebuildingStrip = ({ progress }: Pick<NonNullable<RecordSetState['rebuilding']>, 'progress'>) => (
  <div className="apply" data-rebuilding="yes">
    <p role="status">{progress.doing} …</p>
    <progress aria-label="Rebuilding lives" />
    <button type="button" className="word" onClick={recordSets.stopRebuild}>
      Stop, and leave the lives as they were
    </button>
  </div>
);
