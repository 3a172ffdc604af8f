'use client';

import { keptRecords } from '../../_state/keeping/kept-records.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { useKeptRecords } from '../../_state/use-kept-records.ts';

/** Whether these records are here again when the page is opened again; and how to be rid of them. */
export function Keeping({ open }: { open: OpenRecordSet }) {
  const { keeping } = useKeptRecords();
  const kept = keeping.is === 'kept' || keeping.is === 'saving';
  const choose = () => void (kept ? keptRecords.stopKeeping() : keptRecords.keep(open));
  return (
    <div className="keeping" data-keeping={keeping.is}>
      {open.files === null ? (
        <p>The demo fleet comes with the page and need not be kept.</p>
      ) : (
        <label>
          <input type="checkbox" checked={kept} disabled={keeping.is === 'saving'} onChange={choose} /> Keep these
          records in this browser, so that they are here when the page is opened again
        </label>
      )}
      <p className="quiet" role="status">
        {keeping.is === 'saving' && `Keeping ${keeping.name} …`}
        {keeping.is === 'kept' &&
          `${keeping.name} is kept in this browser, on this machine only. Records opened next take its place.`}
        {(keeping.is === 'nothing' || keeping.is === 'unknown') && 'No records are kept once the page is closed.'}
        {keeping.is === 'trouble' && keeping.message}
      </p>
      <button type="button" className="word" onClick={() => void keptRecords.forgetEverything()}>
        Forget everything
      </button>
    </div>
  );
}

/** What happened to what is kept, said on every page until it is settled. */
export function KeepingNotice() {
  const { keeping, elsewhere } = useKeptRecords();
  const trouble = keeping.is === 'trouble' ? keeping : null;
  return (
    <div role="status">
      {trouble && (
        <p className="notice" data-kept-trouble="yes">
          {trouble.message.charAt(0).toUpperCase() + trouble.message.slice(1)}
          {/[.]$/.test(trouble.message) ? '' : '.'}{' '}
          {trouble.forgettable && (
            <button type="button" className="word" onClick={() => void keptRecords.stopKeeping()}>
              Forget what was kept
            </button>
          )}
        </p>
      )}
      {elsewhere !== null && (
        <p className="notice" data-elsewhere={elsewhere}>
          {elsewhere === 'replaced'
            ? 'Another tab keeps its records now: they are what opens next time. This tab still shows its own.'
            : 'Another tab made this browser forget the records it kept. This tab still shows its own until it is closed.'}
        </p>
      )}
    </div>
  );
}
