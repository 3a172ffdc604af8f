'use client';

import { useState } from 'react';
import { columnDrafts } from '../../_state/columns/column-drafts.ts';
import { openOf, type Draft } from '../../_state/columns/draft.ts';
import { columnMaps } from '../../_state/keeping/column-map-store.ts';
import { recordSets } from '../../_state/record-sets.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { saveFile } from '../finding/save-file.ts';
import { useGo } from '../frame/use-go.ts';
import { counted } from './column-words.ts';
import { mapsFile, mapsFileName } from './maps-file.ts';

/** What stands in the way, and what confirms all sources at once and opens their files. */
export function ConfirmBar({ drafts }: { drafts: readonly Draft[] }) {
  const go = useGo();
  const { opening } = useRecordSet();
  const [keeps, setKeeps] = useState(true);
  const taken = drafts.filter(({ left }) => !left);
  const maps = taken.map(({ map }) => map);
  const twice = maps.find(({ source }, at) => maps.findIndex((map) => map.source === source) !== at);
  const first = drafts.findIndex((draft) => openOf(draft) !== null);
  const blocked = drafts[first];
  const confirm = async () => {
    if (keeps) await columnMaps.keep(maps);
    await recordSets.openWaiting(maps);
    const { waiting, trouble } = recordSets.now();
    if (waiting === null && trouble === null) go('/records/');
  };
  return (
    <div className="confirm-bar" role="group" aria-label="Confirm">
      <p role="status">
        {blocked && (
          <>
            {blocked.map.source}: {openOf(blocked)}.{' '}
            <button type="button" className="word" onClick={() => columnDrafts.show(first)}>
              Show it
            </button>
          </>
        )}
        {!blocked && twice && `Two sources are called ${twice.source}: call one of them otherwise.`}
        {!blocked && !twice && `${counted(taken.length, 'source')} ready.`}
      </p>
      <label className="tick-label">
        <input type="checkbox" checked={keeps} onChange={({ target }) => setKeeps(target.checked)} />
        Keep these maps in this browser: next month’s files open without asking
      </label>
      <div className="confirm-acts">
        <button
          type="button"
          className="main-act"
          disabled={blocked !== undefined || twice !== undefined || opening !== null || taken.length === 0}
          onClick={() => void confirm()}
        >
          Confirm and open
        </button>
        <button
          type="button"
          className="word"
          disabled={taken.length === 0}
          onClick={() => saveFile(mapsFile(maps), mapsFileName(maps), 'application/json')}
        >
          Maps (JSON)
        </button>
        <button type="button" className="word" disabled={opening !== null} onClick={() => void openWithout(go)}>
          Open without these files
        </button>
      </div>
    </div>
  );
}

async function openWithout(go: (path: string) => void): Promise<void> {
  await recordSets.openWaiting([]);
  if (recordSets.now().waiting === null) go('/records/');
}
