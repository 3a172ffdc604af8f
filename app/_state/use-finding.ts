'use client';

import * as Comlink from 'comlink';
import { useCallback, useEffect, useState } from 'react';
import type { Finding, QuestionId } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import { keepAnswer, keptAnswer, standIn } from './kept-answers.ts';
import { nextJob } from './next-job.ts';
import type { QuestionNews } from './record-desk.ts';
import { messageOf, type OpenRecordSet } from './record-sets.ts';
import { useRecordSet } from './use-record-set.ts';

export interface FindingInUse {
  /** The latest answer that came; of an earlier view, or before its slow parts, while `settled` is false. */
  readonly finding: Finding | null;
  /** The answer is that of the view and records now looked at. */
  readonly settled: boolean;
  /** The answer is of the view looked at, though its slow parts may still come. */
  readonly current: boolean;
  /** The answer came before its slow parts: its doubts are not all checked. */
  readonly first: boolean;
  readonly trouble: string | null;
  /** How far a long question is that is being worked on. */
  readonly progress: QuestionNews['progress'] | null;
  /** The slow parts were given up by the reader. */
  readonly stopped: boolean;
  readonly stop: () => void;
  readonly goOn: () => void;
}

interface Came {
  readonly open: OpenRecordSet;
  readonly key: string;
  readonly finding: Finding | null;
  readonly first: boolean;
  readonly trouble: string | null;
}

/** Asks a question of the open records; an answer that comes after the view has moved on is dropped. */
export function useFinding(question: QuestionId, view: View, units: UnitSystem): FindingInUse {
  const { open } = useRecordSet();
  const key = JSON.stringify([question, view, units]);
  const [came, setCame] = useState<Came>();
  const [heard, setHeard] = useState<{ key: string; progress: QuestionNews['progress'] }>();
  const [stoppedKey, setStoppedKey] = useState<string | null>(null);
  const stopped = stoppedKey === key;
  useEffect(() => {
    if (open === null || stopped) return;
    let wanted = true;
    const put = (part: Partial<Came>) =>
      wanted &&
      setCame((last) => {
        const before = last?.open === open ? last : undefined;
        return { open, key, finding: before?.finding ?? null, first: false, trouble: null, ...part };
      });
    const kept = keptAnswer(open, key);
    if (kept !== undefined) {
      // What the next view shows until its answer comes.
      void Promise.resolve(kept).then((finding) => put({ finding }));
      return () => {
        wanted = false;
      };
    }
    const job = nextJob();
    // A deviation looked into changes nothing of the rest: that stays as it stands.
    const known = standIn(open, question, view, units);
    if (known !== undefined) put({ finding: known });
    const told = Comlink.proxy(({ first, progress }: QuestionNews) => {
      if (first !== undefined && known === undefined) put({ finding: first, first: true });
      if (progress !== undefined && wanted) setHeard({ key, progress });
    });
    open.desk.ask(job, question, view, units, told).then(
      (finding) => {
        keepAnswer(open, question, view, units, finding);
        put({ finding });
      },
      (error: unknown) => put({ trouble: messageOf(error) }),
    );
    return () => {
      wanted = false;
      void open.desk.abandon(job);
    };
    // `key` stands for question, view and units: their objects are new at every render.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [open, key, stopped]);
  const stop = useCallback(() => setStoppedKey(key), [key]);
  const goOn = useCallback(() => setStoppedKey(null), []);
  const acts = { stopped, stop, goOn };
  if (open === null)
    return { finding: null, settled: false, current: false, first: false, trouble: null, progress: null, ...acts };
  const kept = keptAnswer(open, key);
  if (kept !== undefined)
    return { finding: kept, settled: true, current: true, first: false, trouble: null, progress: null, ...acts };
  const last = came?.open === open ? came : undefined;
  const current = last?.key === key;
  const trouble = current ? last.trouble : null;
  return {
    // Given up before anything came: an answer of an earlier view is none of this one.
    finding: stopped && !current ? null : (last?.finding ?? null),
    ...{ settled: trouble !== null || stopped, trouble, ...acts },
    ...{ current: current && last.finding !== null, first: current && last.first },
    progress: !stopped && heard?.key === key ? heard.progress : null,
  };
}
