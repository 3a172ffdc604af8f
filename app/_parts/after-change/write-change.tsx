'use client';

import { useState } from 'react';
import { changeRecordSchema } from '../../../shared/change-record.ts';
import type { Finding } from '../../../shared/finding.ts';
import { writeDown } from '../../_state/change-records.ts';
import { messageOf } from '../../_state/record-sets.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { ChangeFields, type ChangeDraft } from './change-fields.tsx';
import { plannedFor } from './planned-for.ts';

const today = (): string => new Date().toISOString().slice(0, 10);

/** The form by which a change is written down before it is made: when, where, what is hoped for, and what will count. */
export function WriteChange({ finding }: { readonly finding: Finding }) {
  const { open, rebuilding } = useRecordSet();
  const { change } = useView();
  const { settings } = finding;
  const [trouble, setTrouble] = useState<string | null>(null);
  const [draft, setDraft] = useState<ChangeDraft>(() => ({
    ...{ name: '', date: settings.change ?? today(), shops: settings.changedShops, what: '', procedure: '' },
    ...{ deviations: [], expectedRatio: 0.7, success: 'the upper limit against other shops is below 1', stop: '' },
  }));
  if (open === null) return null;
  const plan = plannedFor(finding, draft.shops, draft.expectedRatio);
  const write = () => {
    const record = changeRecordSchema.safeParse({
      ...draft,
      ...{ procedure: draft.procedure === '' ? null : draft.procedure, writtenOn: today() },
      ...{ failuresNeeded: plan?.failures ?? 30, monthsNeeded: plan?.months ?? 24 },
    });
    if (!record.success) {
      const [issue] = record.error.issues;
      setTrouble(`Not written down yet: ${String(issue?.path[0] ?? '')}: ${issue?.message ?? ''}.`);
      return;
    }
    setTrouble(null);
    writeDown(open, record.data).then(
      () => change({ change: record.data.date, changedShops: record.data.shops }),
      (error: unknown) => setTrouble(messageOf(error)),
    );
  };
  return (
    <section className="aspect" aria-labelledby="write">
      <h2 id="write">Write a change down before it is made</h2>
      <form
        className="change-form choices"
        onSubmit={(event) => {
          event.preventDefault();
          write();
        }}
      >
        <ChangeFields
          {...{ draft, open }}
          says={plan?.says ?? 'Tick the shops to see how many failures and months it takes.'}
          onEdit={(part) => setDraft((last) => ({ ...last, ...part }))}
        />
        <button type="submit" className="main-act" disabled={rebuilding !== null}>
          Write it down
        </button>
        {trouble !== null && <p role="alert">{trouble}</p>}
      </form>
    </section>
  );
}
