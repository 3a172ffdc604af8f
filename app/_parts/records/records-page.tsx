'use client';

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
      {open && (
        <>
          <Answer />
          <section>
            <h2>Files</h2>
            <FileAccounts report={open.report} />
            {open.report.messages.length > 0 && (
              <ul className="messages">
                {open.report.messages.map((message) => (
                  <li key={message}>{message}</li>
                ))}
              </ul>
            )}
          </section>
          <SetAside key={open.number} open={open} />
          <Taken key={open.report.fingerprint} open={open} />
          <Quality open={open} />
          <section className="records-acts">
            <h2>Other records</h2>
            <p>Opening others takes the place of these.</p>
            <OpenActs />
            <Keeping open={open} />
          </section>
        </>
      )}
    </article>
  );
}

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
