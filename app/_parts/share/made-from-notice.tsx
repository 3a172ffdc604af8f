'use client';

import { useEffect, useSyncExternalStore } from 'react';
import { comparedRecords, recordsInSearch } from '../../../lib/view/index.ts';
import { shortPrint } from '../../../shared/settings-file.ts';
import { searchNow } from '../../_state/link.ts';
import { madeFrom } from '../../_state/made-from.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';

/** That what was opened here was made from other records than those that are open, naming both. */
export function MadeFromNotice() {
  const origin = useSyncExternalStore(madeFrom.subscribe, madeFrom.now, madeFrom.atFirst);
  const { open } = useRecordSet();
  useEffect(() => {
    const said = recordsInSearch(searchNow());
    if (said !== null) madeFrom.set({ of: 'link', name: null, ...said });
  }, []);
  if (origin === null || open === null) return null;
  const { report, fingerprint } = open;
  const found = comparedRecords(origin, { records: report.fingerprint, settled: fingerprint });
  if (found === 'same') return null;
  const theirs = origin.name === null ? `records ${origin.records}` : `${origin.name} (records ${origin.records})`;
  const ours = `${report.name} (records ${shortPrint(report.fingerprint)})`;
  return (
    <p className="notice" role="status" data-made-from={found}>
      {found === 'other records'
        ? `This ${origin.of} was made from ${theirs}. Open here: ${ours}. The numbers may be others.`
        : `This ${origin.of} was made from ${theirs}, which is open here too, but under another procedure or other choices: the numbers may be others. Its settings file, brought in, makes them the same.`}{' '}
      <button type="button" className="word" onClick={() => madeFrom.set(null)}>
        Understood
      </button>
    </p>
  );
}
