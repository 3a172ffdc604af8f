'use client';

import { useState } from 'react';
import { choicesSchema, type Choices } from '../../../../shared/choices.ts';
import type { RebuildAccount } from '../../../_state/lives-desk.ts';
import { messageOf, recordSets, type OpenRecordSet } from '../../../_state/record-sets.ts';
import { useDeskAnswer } from '../../../_state/use-desk-answer.ts';
import { useRecordSet } from '../../../_state/use-record-set.ts';
import { useView } from '../../../_state/use-view.ts';
import { RebuildingStrip } from '../../frame/rebuilding-strip.tsx';
import { DuplicateRules } from './duplicate-rules.tsx';
import { EstimatedChoice } from './estimated-choice.tsx';
import { MileageRules } from './mileage-rules.tsx';
import { Repairs } from './repairs.tsx';
import { effectSays } from './taken-words.ts';
import { Windows } from './windows.tsx';

/** What was taken for true where the records leave it open, each choice reversible, and what a change of it did. */
export function Taken({ open }: { open: OpenRecordSet }) {
  const { rebuilding } = useRecordSet();
  const { units } = useView();
  const { value, trouble } = useDeskAnswer('account', (set, job) => set.desk.account(job));
  const [draft, setDraft] = useState<Choices | null>(null);
  const [before, setBefore] = useState<{ account: RebuildAccount; choices: Choices } | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const applied = open.settings.choices;
  const shown = draft ?? applied;
  const edited = JSON.stringify(shown) !== JSON.stringify(applied);
  const checked = choicesSchema.safeParse(shown);

  const take = (choices: Choices) => {
    setFailed(null);
    recordSets.rebuild({ choices }).then(
      (done) => {
        if (done === null) return;
        if (value !== null) setBefore({ account: value, choices: applied });
        setDraft(null);
      },
      (error: unknown) => setFailed(messageOf(error)),
    );
  };

  return (
    <section aria-labelledby="taken" className="taken" data-taken={value === null ? 'waiting' : 'ready'}>
      <h2 id="taken">What was taken for true</h2>
      {trouble && <p role="alert">It could not be counted: {trouble}</p>}
      {value === null ? (
        <div className="waiting-taken" aria-busy="true" />
      ) : (
        <>
          {before !== null && !edited && (
            <p className="change" role="status">
              {effectSays(before.account, value, units)}
            </p>
          )}
          <Windows {...{ account: value, report: open.report, choices: shown, onEdit: setDraft }} />
          <MileageRules {...{ repairs: value.repairs, choices: shown, onEdit: setDraft }} />
          <Repairs key={open.number} {...{ open, repairs: value.repairs, units }} />
          <DuplicateRules {...{ found: value.duplicates, choices: shown, onEdit: setDraft }} />
          <EstimatedChoice {...{ choices: shown, onEdit: setDraft }} />
          {rebuilding !== null ? (
            <RebuildingStrip progress={rebuilding.progress} />
          ) : (
            <div className="apply" data-edited={edited}>
              {edited ? (
                <>
                  <button type="button" className="main-act" disabled={!checked.success} onClick={() => take(shown)}>
                    Rebuild the lives by this
                  </button>
                  <button type="button" className="word" onClick={() => setDraft(null)}>
                    Give up these changes
                  </button>
                </>
              ) : (
                <p className="quiet">The lives are rebuilt by what stands here.</p>
              )}
              {!edited && before !== null && (
                <button type="button" className="word" onClick={() => take(before.choices)}>
                  Rebuild them as before
                </button>
              )}
              {!checked.success && (
                <p role="alert">A window must not end before it begins; a blank end is left as the records say.</p>
              )}
              {failed && <p role="alert">The lives could not be rebuilt, and are as they were: {failed}</p>}
            </div>
          )}
        </>
      )}
    </section>
  );
}
