'use client';

import * as Comlink from 'comlink';
import { useState } from 'react';
import type { Progress } from '../../../shared/record-set.ts';
import type { LivesAsked } from '../../_state/lives-desk.ts';
import { nextJob } from '../../_state/next-job.ts';
import { messageOf, type OpenRecordSet } from '../../_state/record-sets.ts';
import { saveFile } from '../finding/save-file.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

interface Writing {
  readonly job: number;
  readonly share: number | null;
}

/** The lives listed as a file: every column of the lives table, which another system may open by the same contract. */
export function LivesActs({ open, asked, component }: { open: OpenRecordSet; asked: LivesAsked; component: string }) {
  const [writing, setWriting] = useState<Writing | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const save = (form: 'csv' | 'arrow') => {
    const job = nextJob();
    setTrouble(null);
    setWriting({ job, share: null });
    const told = Comlink.proxy(({ share }: Progress) => setWriting((now) => (now?.job === job ? { job, share } : now)));
    open.desk.livesFile(job, asked, form, told).then(
      (file) => {
        saveFile(file, `lives-${component}${open.report.invented ? '-invented' : ''}.${form}`);
        setWriting((now) => (now?.job === job ? null : now));
      },
      (error: unknown) => {
        setTrouble(messageOf(error));
        setWriting((now) => (now?.job === job ? null : now));
      },
    );
  };
  const stop = () => {
    if (writing !== null) void open.desk.abandon(writing.job);
  };
  return (
    <div className="acts" role="group" aria-label="Take away">
      <button type="button" className="word" disabled={writing !== null} onClick={() => save('csv')}>
        These lives (CSV)
      </button>
      <button type="button" className="word" disabled={writing !== null} onClick={() => save('arrow')}>
        These lives (Arrow)
      </button>
      {writing !== null && (
        <span className="writing" role="status">
          Writing lives{writing.share !== null && ` (${Math.floor(writing.share * 100)}${percentSign})`}
          <button type="button" className="word" onClick={stop}>
            Cancel
          </button>
        </span>
      )}
      {trouble && <p role="alert">The lives could not be written: {trouble}</p>}
    </div>
  );
}
