'use client';

import { useState } from 'react';
import type { FieldProblem } from '../../../shared/procedure-file.ts';
import type { Procedure } from '../../../shared/procedure.ts';
import { procedureDraft } from '../../_state/procedure-draft.ts';
import { messageOf, recordSets, type OpenRecordSet } from '../../_state/record-sets.ts';
import type { DraftInUse } from '../../_state/use-procedure-draft.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { RebuildingStrip } from '../frame/rebuilding-strip.tsx';
import { withOwnNames } from './edit-procedures.ts';

interface Props {
  readonly open: OpenRecordSet;
  readonly draft: DraftInUse;
  readonly problems: readonly FieldProblem[];
}

/** Judges the lives by what the form shows, says how far that is, and goes back. */
export function ApplyBar({ open, draft, problems }: Props) {
  const { rebuilding } = useRecordSet();
  const [trouble, setTrouble] = useState<string | null>(null);
  const { applied, shown, edited, before, edit } = draft;
  const judge = (procedures: readonly Procedure[]) => {
    setTrouble(null);
    recordSets.rebuild({ procedures }).then(
      (changed) => {
        if (changed !== null) procedureDraft.applied(open.report.fingerprint, applied, changed);
      },
      (error: unknown) => setTrouble(messageOf(error)),
    );
  };
  if (rebuilding !== null) return <RebuildingStrip progress={rebuilding.progress} />;
  return (
    <div className="apply" data-edited={edited}>
      {edited ? (
        <>
          <button
            type="button"
            className="main-act"
            disabled={problems.length > 0}
            onClick={() => judge(withOwnNames(applied, shown))}
          >
            Judge the lives by this
          </button>
          <button type="button" className="word" onClick={() => edit(null)}>
            Give up these changes
          </button>
        </>
      ) : (
        <p className="quiet">The lives are judged by the procedure as it stands here.</p>
      )}
      {!edited && before !== null && (
        <button type="button" className="word" onClick={() => judge(before)}>
          Judge them again by what was there before
        </button>
      )}
      {problems.length > 0 && (
        <ul className="apply-problems" role="alert">
          {problems.slice(0, 6).map(({ where, says }, place) => (
            <li key={place}>
              <b>{where}</b> {says}
            </li>
          ))}
        </ul>
      )}
      {trouble && <p role="alert">The lives could not be rebuilt, and are as they were: {trouble}</p>}
    </div>
  );
}
