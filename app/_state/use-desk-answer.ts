'use client';

import { useEffect, useState } from 'react';
import { nextJob } from './next-job.ts';
import { messageOf, type OpenRecordSet } from './record-sets.ts';
import { useRecordSet } from './use-record-set.ts';

export interface DeskAnswer<Value> {
  /** The latest that came; of something asked before while `settled` is false. */
  readonly value: Value | null;
  readonly settled: boolean;
  readonly trouble: string | null;
}

/**
 * Asks the desk of the open records; an answer that comes after something else was asked is dropped.
 * @param key says what is asked; null asks nothing
 */
export function useDeskAnswer<Value>(
  key: string | null,
  ask: (open: OpenRecordSet, job: number) => Promise<Value>,
): DeskAnswer<Value> {
  const { open } = useRecordSet();
  const [came, setCame] = useState<{ open: OpenRecordSet; key: string; value: Value | null; trouble: string | null }>();
  useEffect(() => {
    if (open === null || key === null) return;
    const job = nextJob();
    let wanted = true;
    ask(open, job).then(
      (value) => wanted && setCame({ open, key, value, trouble: null }),
      (error: unknown) =>
        wanted && setCame((last) => ({ open, key, value: last?.value ?? null, trouble: messageOf(error) })),
    );
    return () => {
      wanted = false;
      void open.desk.abandon(job);
    };
    // `key` stands for what `ask` asks: it is a new function at every render.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [open, key]);
  if (open === null || key === null) return { value: null, settled: false, trouble: null };
  const last = came?.open === open ? came : undefined;
  const settled = last?.key === key;
  return { value: last?.value ?? null, settled, trouble: settled ? last.trouble : null };
}
