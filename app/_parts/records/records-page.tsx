'use client';

import { readByMap, type ReadReport } from '../../../shared/record-set.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { useRecordQuality } from '../../_state/use-record-quality.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { FileAccounts } from './file-accounts.tsx';
import { Keeping } from './keeping.tsx';
import { NoRecords } from './no-records.tsx';
import { OpenActs } from './open-acts.tsx';
import { rowTotals, shareOf } from './opened-words.ts';
import { Quality } from './quality.tsx';
import { SetAside } from './set-aside.tsx';
import { Taken } from './taken/taken.tsx';

/** What was read, what was kept, what was set aside and why. */
export function RecordsPage() {
  const { open, opening, untouched } = useRecordSet();
  const waiting = untouched || opening !== null;
  return (
    <article className="records" data-ready={open !== null}>
      <h1>Can the records be trusted?</h1>
      {open === null && (waiting ? <p className="answer" /> : <NoRecords />)}
      {open && <Opened open={open} />}
    </article>
  );
}

function Opened({ open }: { readonly open: OpenRecordSet }) {
  const judged = useRecordQuality(open);
  const notes = notesBeside(open.report);
  return (
    <>
      <Answer />
      <OnThisPage />
      <section aria-labelledby="files">
        <h2 id="files">Files</h2>
        <FileAccounts report={open.report} />
        {notes.length > 0 && (
          <ul className="messages">
            {notes.map((message) => (
              <li key={message}>{message}</li>
            ))}
          </ul>
        )}
      </section>
      <SetAside key={open.number} open={open} tables={judged.quality?.tables ?? null} />
      <Taken key={open.report.fingerprint} open={open} />
      <Quality {...{ open, judged }} />
      <section className="records-acts" aria-labelledby="others">
        <h2 id="others">Other records</h2>
        <p>Opening others takes the place of these.</p>
        <OpenActs />
        <Keeping open={open} />
      </section>
    </>
  );
}

const parts = [
  ['files', 'Files'],
  ['set-aside', 'Set aside'],
  ['taken', 'What was taken for true'],
  ['weak', 'What weakens the answers'],
  ['blank', 'Which blank costs most'],
  ['full', 'How full the fields are'],
  ['others', 'Other records'],
] as const;

/** A long page: where its parts stand. */
const OnThisPage = () => (
  <nav className="on-this-page" aria-label="On this page">
    {parts.map(([id, says]) => (
      <a key={id} href={`#${id}`}>
        {says}
      </a>
    ))}
  </nav>
);

/** What was noted of the files, but for the map that each was read by, which stands beside it. */
const notesBeside = ({ files, messages }: ReadReport): string[] => {
  const beside = new Set(files.map(({ name, columnMap }) => `${name} ${readByMap(columnMap ?? '')}`));
  return messages.filter((message) => !beside.has(message));
};

function Answer() {
  const { open } = useRecordSet();
  if (open === null) return null;
  const { report } = open;
  const { window } = open.settings.choices;
  const [from, to] = [window.from ?? report.observedFrom, window.to ?? report.observedTo];
  const { read, kept, setAside } = rowTotals(report);
  const used = `${kept.toLocaleString('en-US')} of ${read.toLocaleString('en-US')} rows`;
  return (
    <>
      <p className="answer">
        <b>{used}</b> could be used ({shareOf(kept, read)}).{' '}
        {setAside === 0
          ? 'None had to be set aside.'
          : `${setAside.toLocaleString('en-US')} ${setAside === 1 ? 'is' : 'are'} set aside below, with what is wrong and what would be accepted.`}
      </p>
      {report.invented && <p className="invented">Invented records: no number here is about a real fleet.</p>}
      <dl className="facts">
        <div>
          <dt>Watched</dt>
          <dd>{from && to ? `${from} to ${to}` : 'first to last date of services, inspections and failures'}</dd>
        </div>
        <div>
          <dt>Fingerprint</dt>
          <dd className="fingerprint">{report.fingerprint}</dd>
        </div>
      </dl>
    </>
  );
}
