'use client';

import { useRouter } from 'next/navigation';
import { useCallback } from 'react';
import { carrySearch, searchNow } from '../../_state/link.ts';

/** Leads to another page of the app, the view along with it. */
export function useGo(): (path: string) => void {
  const router = useRouter();
  return useCallback(
    (path) => {
      carrySearch(searchNow());
      router.push(path);
    },
    [router],
  );
}
