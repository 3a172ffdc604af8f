'use client';

import { useSyncExternalStore } from 'react';
import type { Procedure } from '../../shared/procedure.ts';
import { procedureDraft, type DraftState } from './procedure-draft.ts';
import type { OpenRecordSet } from './record-sets.ts';

export interface DraftInUse extends Pick<DraftState, 'before' | 'changed'> {
  readonly applied: readonly Procedure[];
  /** What the form shows: as edited, else as applied. */
  readonly shown: readonly Procedure[];
  readonly edited: boolean;
  readonly edit: (procedures: readonly Procedure[] | null) => void;
}

/** The procedure of the open records in the making. */
export function useProcedureDraft(open: OpenRecordSet): DraftInUse {
  const state = useSyncExternalStore(procedureDraft.subscribe, procedureDraft.now, procedureDraft.atFirst);
  const of = open.report.fingerprint;
  const own = state.of === of ? state : null;
  const applied = open.settings.procedures;
  const shown = own?.draft ?? applied;
  return {
    applied,
    shown,
    edited: JSON.stringify(shown) !== JSON.stringify(applied),
    before: own?.before ?? null,
    changed: own?.changed ?? null,
    edit: (procedures) => procedureDraft.edit(of, procedures),
  };
}
