'use client';

import { useEffect, useState } from 'react';
import type { ListedLife, LivesAsked } from '../../_state/lives-desk.ts';
import { nextJob } from '../../_state/next-job.ts';
import { messageOf, type OpenRecordSet } from '../../_state/record-sets.ts';

const pageRows = 100;
/** Pages held on the page's side; the desk gives any again at once. */
const mostPages = 12;

interface Held {
  readonly of: string;
  readonly pages: ReadonlyMap<number, readonly ListedLife[]>;
  readonly trouble: string | null;
}

const none: Held = { of: '', pages: new Map(), trouble: null };

function withPage(held: Held, of: string, page: number, lives: readonly ListedLife[]): Held {
  const pages = new Map(held.of === of ? held.pages : []);
  pages.set(page, lives);
  const oldest = pages.keys().next().value;
  if (pages.size > mostPages && oldest !== undefined) pages.delete(oldest);
  return { of, pages, trouble: null };
}

export interface LifePages {
  /** The line at a place of the list; undefined while it is on its way. */
  readonly line: (place: number) => ListedLife | undefined;
  readonly trouble: string | null;
}

/** Lines of a list of lives, fetched from the desk a page at a time, those in sight only. */
export function useLifePages(open: OpenRecordSet, asked: LivesAsked, first: number, count: number): LifePages {
  const [held, setHeld] = useState(none);
  const of = JSON.stringify([open.number, asked]);
  const [from, to] = [Math.floor(first / pageRows), Math.floor((first + Math.max(1, count) - 1) / pageRows)];
  const wanted = Array.from({ length: to - from + 1 }, (_, place) => from + place);
  const missing = wanted.filter((page) => held.of !== of || !held.pages.has(page)).join(' ');
  useEffect(() => {
    if (missing === '') return;
    let heeded = true;
    const jobs = missing.split(' ').map((page) => {
      const job = nextJob();
      open.desk.listLives(job, asked, Number(page) * pageRows, pageRows).then(
        (lives) => heeded && setHeld((last) => withPage(last, of, Number(page), lives)),
        (error: unknown) => heeded && setHeld((last) => ({ ...last, of, trouble: messageOf(error) })),
      );
      return job;
    });
    return () => {
      heeded = false;
      for (const job of jobs) void open.desk.abandon(job);
    };
    // `of` stands for `asked`, whose objects are new at every render.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [open, of, missing]);
  const line = (place: number) =>
    held.of === of ? held.pages.get(Math.floor(place / pageRows))?.[place % pageRows] : undefined;
  return { line, trouble: held.of === of ? held.trouble : null };
}
