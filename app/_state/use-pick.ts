'use client';

import { useCallback, useMemo, useSyncExternalStore } from 'react';
import { searchToPick, searchToView, searchWithPick, viewToSearch } from '../../lib/view/index.ts';
import type { LivesPick } from '../../shared/lives-pick.ts';
import { pushSearch, searchNow, subscribeToSearch } from './link.ts';

export interface PickInUse {
  readonly pick: LivesPick;
  /** What in the link could not be used. */
  readonly notices: readonly string[];
  /** The query part of a link to this page with some of the pick changed. */
  readonly searchWith: (part: Partial<LivesPick>) => string;
  /** Changes some of the pick; the back button undoes it. */
  readonly changePick: (part: Partial<LivesPick>) => void;
}

const noSearch = () => '';

function changed(part: Partial<LivesPick>, address: string): string {
  const { view, units } = searchToView(address);
  return searchWithPick(viewToSearch(view, units), { ...searchToPick(address).pick, ...part });
}

/** Which lives are listed, from the address and back into it. */
export function usePick(): PickInUse {
  const address = useSyncExternalStore(subscribeToSearch, searchNow, noSearch);
  const { pick, notices } = useMemo(() => searchToPick(address), [address]);
  const searchWith = useCallback((part: Partial<LivesPick>) => changed(part, address), [address]);
  const changePick = useCallback((part: Partial<LivesPick>) => pushSearch(changed(part, searchNow())), []);
  return { pick, notices, searchWith, changePick };
}
