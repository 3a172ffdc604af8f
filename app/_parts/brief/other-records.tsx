'use client';

import { useState } from 'react';
import type { BriefEntry } from '../../../shared/brief.ts';
import { askedAgain } from '../../_state/brief/asked-again.ts';
import { messageOf } from '../../_state/record-sets.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';

/** Findings that were made from other records than are open, and the one act that asks them again. */
export function OtherRecords({ entries }: { entries: readonly BriefEntry[] }) {
  const { open } = useRecordSet();
  const [asking, setAsking] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const others = entries.filter(({ finding }) => open !== null && finding.data.fingerprint !== open.fingerprint);
  if (open === null || (others.length === 0 && asking === null)) return null;
  const again = () => {
    setTrouble(null);
    askedAgain(open, others, setAsking).then(
      () => setAsking(null),
      (error: unknown) => {
        setAsking(null);
        setTrouble(messageOf(error));
      },
    );
  };
  return (
    <div className="notice" data-others={others.length}>
      <p role="status">
        {asking === null
          ? `${others.length === 1 ? 'One finding was' : `${others.length} findings were`} made from other records or settings than are open here (${open.report.name}).`
          : `Asking again: ${asking} …`}
      </p>
      <button type="button" className="word" disabled={asking !== null} onClick={again}>
        Ask them again of the records that are open
      </button>
      {trouble !== null && <p role="alert">They could not all be asked: {trouble}</p>}
    </div>
  );
}
