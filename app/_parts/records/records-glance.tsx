'use client';

import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { PageLink } from '../frame/page-link.tsx';
import { rowTotals, shareOf } from './opened-words.ts';

/** Whether the records can be trusted, in a sentence, before anything is made of them. */
export function RecordsGlance() {
  const { open } = useRecordSet();
  const { search } = useView();
  if (open === null) return <p className="records-glance" />;
  const { read, kept, setAside } = rowTotals(open.report);
  const { observedFrom, observedTo, files } = open.report;
  const refused = files.filter(({ refused: why }) => why !== null).length;
  return (
    <p className="records-glance">
      <PageLink path="/records/" search={search}>
        What was used
      </PageLink>
      : {kept.toLocaleString('en-US')} of {read.toLocaleString('en-US')} rows ({shareOf(kept, read)}) from{' '}
      {files.length} {files.length === 1 ? 'file' : 'files'};{' '}
      {setAside === 0 ? (
        'none set aside'
      ) : (
        <>
          <PageLink className="count-link" path="/records/" search={search}>
            {setAside.toLocaleString('en-US')}
          </PageLink>{' '}
          set aside, each with its reason
        </>
      )}
      {refused > 0 && `; ${refused} ${refused === 1 ? 'file' : 'files'} not used`}
      {observedFrom !== null && observedTo !== null && `; watched from ${observedFrom} to ${observedTo}`}.
    </p>
  );
}
