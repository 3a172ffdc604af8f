'use client';

import { useState } from 'react';
import { areProblems, checkedProcedures } from '../../../shared/procedure-file.ts';
import type { JudgedLives, JudgementsChanged } from '../../_state/lives-desk.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { useDeskAnswer } from '../../_state/use-desk-answer.ts';
import { useProcedureDraft } from '../../_state/use-procedure-draft.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { Emphasised } from '../finding/emphasised.tsx';
import { NoRecords } from '../records/no-records.tsx';
import { ApplyBar } from './apply-bar.tsx';
import { Conflicts } from './conflicts.tsx';
import { withCopy } from './edit-procedures.ts';
import { JudgedTable } from './judged-table.tsx';
import { changeSays, procedureAnswer } from './judged-words.ts';
import { ProcedureActs } from './procedure-acts.tsx';
import { VersionForm } from './version-form.tsx';
import { VersionsList } from './versions-list.tsx';

/** What a job must meet: a form over every version, what it makes of the lives, and where evidence contradicts itself. */
export function ProcedurePage() {
  const { open, opening, untouched } = useRecordSet();
  const waiting = untouched || opening !== null;
  const { value, settled, trouble } = useDeskAnswer('judged', (set, job) => set.desk.judged(job));
  return (
    <article className="procedure" data-ready={open !== null && settled}>
      <h1>What must a wheel-end job meet?</h1>
      {open === null && !waiting && <NoRecords />}
      {open === null && waiting && <p className="answer" />}
      {trouble && (
        <p className="notice" role="alert">
          The lives’ judgements could not be read: {trouble}
        </p>
      )}
      {open !== null && <Opened open={open} judged={value} />}
    </article>
  );
}

function Opened({ open, judged: came }: { open: OpenRecordSet; judged: JudgedLives | null }) {
  const draft = useProcedureDraft(open);
  const { applied, shown, edit, changed } = draft;
  // What a rebuild came to is known before it is asked again, so that nothing goes blank meanwhile.
  const judged = came ?? changed?.after ?? null;
  const [at, setAt] = useState(0);
  const { units, changeUnits } = useView();
  const checked = checkedProcedures(shown);
  const problems = areProblems(checked) ? checked : [];
  const place = Math.min(at, shown.length - 1);
  const copy = (from: number) => {
    const day = new Date().toISOString().slice(0, 10);
    const made = withCopy(shown, from, open.report.observedTo ?? day);
    edit(made.procedures);
    setAt(made.at);
  };
  const remove = (which: number) => {
    edit(shown.filter((_, other) => other !== which));
    setAt(0);
  };
  return (
    <>
      <p className="answer" aria-live="polite">
        {judged !== null && <Emphasised {...procedureAnswer(applied, judged)} />}
      </p>
      {open.report.invented && <p className="invented">Invented records: no number here is about a real fleet.</p>}
      <p className="governs">
        <b>Common practice, the maker’s instruction governs.</b> Every value here is a check value, to be replaced by
        what the maker of the hub says; no value here sets a wheel end.
      </p>
      <section aria-labelledby="versions">
        <h2 id="versions">Versions</h2>
        <VersionsList
          {...{ procedures: shown, applied, at: place, judged, onCopy: copy, onRemove: remove, onShow: setAt }}
        />
        <ProcedureActs {...{ procedures: shown, savable: problems.length === 0, onEdit: edit }} />
      </section>
      <section aria-labelledby="asked">
        <div className="opened-head">
          <h2 id="asked">
            What {shown[place]?.name} {shown[place]?.version} asks
          </h2>
          <button type="button" className="word" onClick={() => changeUnits(units === 'us' ? 'metric' : 'us')}>
            {units === 'us' ? 'lbf·ft, in, mi: show N·m, mm, km' : 'N·m, mm, km: show lbf·ft, in, mi'}
          </button>
        </div>
        <VersionForm {...{ procedures: shown, at: place, units, problems, onEdit: edit }} />
        <ApplyBar {...{ open, draft, problems }} />
      </section>
      <Made {...{ judged, changed }} />
      {judged !== null && <Conflicts key={open.number} judged={judged} units={units} />}
    </>
  );
}

function Made({ judged, changed }: { judged: JudgedLives | null; changed: JudgementsChanged | null }) {
  return (
    <section aria-labelledby="made" data-changed={changed?.lives}>
      <h2 id="made">What it makes of the lives</h2>
      {changed !== null && (
        <p className="change" role="status">
          {changeSays(changed)}
        </p>
      )}
      {judged === null ? <div className="waiting-judged" /> : <JudgedTable {...{ judged, changed }} />}
    </section>
  );
}
