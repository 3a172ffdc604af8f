'use client';

import { useState } from 'react';
import type { ChangeRecord } from '../../../shared/change-record.ts';
import { changeFileText, readChangeFile, takeOff, writeDown } from '../../_state/change-records.ts';
import { messageOf, type OpenRecordSet } from '../../_state/record-sets.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { saveFile } from '../finding/save-file.ts';
import { JsonFileButton } from '../frame/json-file-button.tsx';
import { RebuildingStrip } from '../frame/rebuilding-strip.tsx';

/** Changes written down, kept with the record set; each can be judged, saved as a file, or taken off. */
export function KeptChanges() {
  const { open, rebuilding } = useRecordSet();
  const [says, setSays] = useState<string | null>(null);
  if (open === null) return null;
  const { changes } = open.settings.choices;
  const tell = (work: Promise<void>) => {
    setSays(null);
    work.catch((error: unknown) => setSays(messageOf(error)));
  };
  const take = async (file: File): Promise<void> => {
    const read = await readChangeFile(open, file);
    if (typeof read === 'string') {
      setSays(read);
      return;
    }
    await writeDown(open, read.record);
    if (read.altered)
      setSays(
        `${file.name} was altered after its fingerprint was taken: what it says was written down on ${read.record.writtenOn} need not have been.`,
      );
  };
  return (
    <section className="aspect" aria-labelledby="written" data-changes={changes.length}>
      <h2 id="written">Changes written down</h2>
      {changes.length === 0 ? (
        <p>None yet. A change is judged best against what was written down before it was made.</p>
      ) : (
        <ul>
          {changes.map((record) => (
            <KeptChange key={JSON.stringify(record)} {...{ open, record, tell }} />
          ))}
        </ul>
      )}
      {rebuilding !== null && <RebuildingStrip progress={rebuilding.progress} />}
      <p>
        <JsonFileButton
          act="Take one from a file"
          label="A change record as JSON"
          kind="change"
          onFile={(file) => tell(take(file))}
        />
      </p>
      {says !== null && <p role="alert">{says}</p>}
    </section>
  );
}

interface Props {
  readonly open: OpenRecordSet;
  readonly record: ChangeRecord;
  readonly tell: (work: Promise<void>) => void;
}

function KeptChange({ open, record, tell }: Props) {
  const { change } = useView();
  const save = async () => {
    saveFile(await changeFileText(open, record), `change-${record.date}.json`, 'application/json');
  };
  return (
    <li>
      <strong>{record.name}</strong>, {record.shops.join(', ')} from {record.date}; written down on {record.writtenOn}:{' '}
      {record.expectedRatio} times expected, {record.failuresNeeded} failures and {record.monthsNeeded} months needed.
      {record.success !== '' && ` Success: ${record.success}.`}
      {record.stop !== '' && ` Stop: ${record.stop}.`}{' '}
      <span className="change-acts">
        <button
          type="button"
          className="word"
          onClick={() => change({ change: record.date, changedShops: record.shops })}
        >
          Judge by it
        </button>
        <button type="button" className="word" onClick={() => tell(save())}>
          Save as a file
        </button>
        <button type="button" className="word" onClick={() => tell(takeOff(open, record))}>
          Take off
        </button>
      </span>
    </li>
  );
}
