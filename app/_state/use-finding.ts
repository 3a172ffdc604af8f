'use client';

import { useEffect, useState } from 'react';
import type { Finding, QuestionId } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import { nextJob } from './next-job.ts';
import { messageOf, type OpenRecordSet } from './record-sets.ts';
import { useRecordSet } from './use-record-set.ts';

export interface FindingInUse {
  /** The latest answer that came; of an earlier view while `settled` is false. */
  readonly finding: Finding | null;
  /** The answer is that of the view and records now looked at. */
  readonly settled: boolean;
  readonly trouble: string | null;
}

const mostKept = 60;
/** Answers already given, by record set: going back to a view shows it at once. */
const answers = new WeakMap<OpenRecordSet, Map<string, Finding>>();

const answersOf = (open: OpenRecordSet): Map<string, Finding> => {
  const kept = answers.get(open) ?? new Map<string, Finding>();
  answers.set(open, kept);
  return kept;
};

function keep(open: OpenRecordSet, key: string, finding: Finding): void {
  const kept = answersOf(open);
  kept.set(key, finding);
  const oldest = kept.keys().next().value;
  if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest);
}

/** Asks a question of the open records; an answer that comes after the view has moved on is dropped. */
export function useFinding(question: QuestionId, view: View, units: UnitSystem): FindingInUse {
  const { open } = useRecordSet();
  const key = JSON.stringify([question, view, units]);
  const [came, setCame] = useState<{
    open: OpenRecordSet;
    key: string;
    finding: Finding | null;
    trouble: string | null;
  }>();
  useEffect(() => {
    if (open === null) return;
    const job = nextJob();
    let wanted = true;
    const known = answersOf(open).get(key);
    const answer = known === undefined ? open.desk.ask(job, question, view, units) : Promise.resolve(known);
    answer.then(
      (finding) => {
        keep(open, key, finding);
        if (wanted) setCame({ open, key, finding, trouble: null });
      },
      (error: unknown) => {
        if (wanted) setCame((last) => ({ open, key, finding: last?.finding ?? null, trouble: messageOf(error) }));
      },
    );
    return () => {
      wanted = false;
      if (known === undefined) void open.desk.abandon(job);
    };
    // `key` stands for question, view and units: their objects are new at every render.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [open, key]);
  if (open === null) return { finding: null, settled: false, trouble: null };
  const kept = answersOf(open).get(key);
  if (kept !== undefined) return { finding: kept, settled: true, trouble: null };
  const last = came?.open === open ? came : undefined;
  const trouble = last?.key === key ? last.trouble : null;
  return { finding: last?.finding ?? null, settled: trouble !== null, trouble };
}
