'use client';

import { useCallback, useMemo, useSyncExternalStore } from 'react';
import { searchToPick, searchToView, searchWithPick, viewToSearch } from '../../lib/view/index.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import { pushSearch, searchNow, subscribeToSearch } from './link.ts';

export interface ViewInUse {
  readonly view: View;
  readonly units: UnitSystem;
  /** What in the link could not be used. */
  readonly notices: readonly string[];
  /** The link's query part, to go along to other pages. */
  readonly search: string;
  /** Changes some of the view as it then is; the back button undoes it. */
  readonly change: (part: Partial<View> | ((view: View) => Partial<View>)) => void;
  readonly changeUnits: (units: UnitSystem) => void;
}

const noSearch = () => '';

/** Another view of the same page: which lives are listed stays. */
const onThisPage = (viewSearch: string): string => searchWithPick(viewSearch, searchToPick(searchNow()).pick);

/** The view, from the address and back into it. */
export function useView(): ViewInUse {
  const address = useSyncExternalStore(subscribeToSearch, searchNow, noSearch);
  const { view, units, notices } = useMemo(() => searchToView(address), [address]);
  const change = useCallback<ViewInUse['change']>((part) => {
    const now = searchToView(searchNow());
    const changed = typeof part === 'function' ? part(now.view) : part;
    pushSearch(onThisPage(viewToSearch({ ...now.view, ...changed }, now.units)));
  }, []);
  const changeUnits = useCallback(
    (next: UnitSystem) => pushSearch(onThisPage(viewToSearch(searchToView(searchNow()).view, next))),
    [],
  );
  return { view, units, notices, search: viewToSearch(view, units), change, changeUnits };
}
