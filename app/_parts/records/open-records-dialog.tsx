'use client';

import { useEffect, useRef } from 'react';
import { keptRecords } from '../../_state/keeping/kept-records.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { OpenActs } from './open-acts.tsx';

const tables = [
  ['services', 'one row per wheel end touched: what was replaced, by whom, how it was set'],
  ['failures', 'what failed, where, at how many miles, and whether the lining was soaked'],
  ['units', 'the vehicles and their axles: without them miles without trouble go uncounted'],
  ['readings', 'odometer readings'],
  ['inspections', 'checks of wheel ends, clean ones too'],
] as const;

/** What to open and how the files are told apart; the same files can be dropped anywhere on the page. */
export function OpenRecordsDialog({ open, onClose }: { open: boolean; onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const set = useRecordSet().open;
  useEffect(() => {
    if (open && !dialog.current?.open) dialog.current?.showModal();
    if (!open) dialog.current?.close();
  }, [open]);
  return (
    <dialog ref={dialog} className="open-dialog" aria-labelledby="open-records" onClose={onClose}>
      <h2 id="open-records">Open records</h2>
      <p>
        Choose files or a folder, or drop them anywhere on the page. They are read in this browser and never leave it.
        Workbooks, CSV, Parquet, Arrow and JSON lines, packed or not, are told apart by how their names begin:
      </p>
      <dl>
        {tables.map(([name, says]) => (
          <div key={name}>
            <dt>{name}…</dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
      <p className="quiet">
        Services and failures alone give results; several files may feed one table. Files with headers of their own are
        asked about once.
      </p>
      <OpenActs onChosen={onClose} />
      <div className="dialog-foot">
        {set && (
          <button
            type="button"
            className="word"
            onClick={() => {
              void keptRecords.forgetEverything();
              onClose();
            }}
          >
            Forget {set.report.name}
          </button>
        )}
        <button type="button" className="word" onClick={onClose}>
          Close
        </button>
      </div>
    </dialog>
  );
}
