/** The query part of the page's address as something to subscribe to: the address is the only state of a view. */
const listeners = new Set<() => void>();

/** A query part on its way to another page, whose bare path the router has not put in the address yet. */
let carried: string | null = null;

export const searchNow = (): string => carried ?? window.location.search;

export function subscribeToSearch(listener: () => void): () => void {
  listeners.add(listener);
  window.addEventListener('popstate', listener);
  return () => {
    listeners.delete(listener);
    window.removeEventListener('popstate', listener);
  };
}

const tell = (): void => {
  for (const listener of listeners) listener();
};

const addressWith = (search: string): string => `${window.location.pathname}${search}${window.location.hash}`;

/** Another view of this page; the back button returns to the last. */
export function pushSearch(search: string): void {
  if (search === window.location.search) return;
  window.history.pushState(null, '', addressWith(search));
  tell();
}

/** The view the next page opens with. */
export function carrySearch(search: string): void {
  carried = search;
  tell();
}

/** To be called once another page stands in the address: gives it the view carried to it. */
export function setDownSearch(): void {
  if (carried !== null) window.history.replaceState(null, '', addressWith(carried));
  carried = null;
  tell();
}
