'use client';

import { useView } from '../../_state/use-view.ts';

/** Nothing matches the scope: says so, and offers the way back. */
export function NoLives() {
  const { change } = useView();
  return (
    <div className="notice">
      <p>No life in these records matches the scope above, so there is nothing to draw.</p>
      <button
        type="button"
        className="word"
        onClick={() => change({ where: {}, installedFrom: null, installedTo: null })}
      >
        Look at all again
      </button>
    </div>
  );
}
