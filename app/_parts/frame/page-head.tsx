'use client';

import { useState } from 'react';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { OpenRecordsDialog } from '../records/open-records-dialog.tsx';
import { PageLink } from './page-link.tsx';
import { WaitingStrip } from '../columns/waiting-strip.tsx';
import { OpeningStrip } from '../records/opening-strip.tsx';
import { openedSays } from '../records/opened-words.ts';

const unitNames = { us: 'mi · lbf·ft', metric: 'km · N·m' } as const;

/** Wordmark, what is open, units, and the way to open records. */
export function PageHead() {
  const { units, search, changeUnits } = useView();
  const { open, opening, waiting, untouched } = useRecordSet();
  const [asking, setAsking] = useState(false);
  const other = units === 'us' ? 'metric' : 'us';
  const nothing = untouched ? 'Opening…' : 'No records open';
  return (
    <header className="head">
      <PageLink className="mark" path="/" search={search}>
        Hub<i>cause</i>
      </PageLink>
      {opening ? (
        <OpeningStrip opening={opening} />
      ) : (
        <p className="opened">{open ? openedSays(open, units) : nothing}</p>
      )}
      <div className="head-acts">
        <button type="button" className="word" onClick={() => changeUnits(other)}>
          <span className="unseen">Units: </span>
          {unitNames[units]}
          <span className="unseen">, change to {unitNames[other]}</span>
        </button>
        <button type="button" className="word open-yours" aria-haspopup="dialog" onClick={() => setAsking(true)}>
          Open your records…
        </button>
      </div>
      {waiting && !opening && <WaitingStrip waiting={waiting} search={search} />}
      <OpenRecordsDialog open={asking} onClose={() => setAsking(false)} />
    </header>
  );
}
