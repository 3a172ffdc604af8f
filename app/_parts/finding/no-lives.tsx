'use client';

import type { Finding } from '../../../shared/finding.ts';
import { useView } from '../../_state/use-view.ts';

/** Whether nothing matches the scope, or nothing of it that the question can use. */
export const hasNoLives = ({ data, groups }: Finding): boolean =>
  data.lives === 0 || (groups.length > 0 && groups.every(({ lives }) => lives === 0));

/** Nothing matches the scope: says so, and offers the way back. */
export function NoLives() {
  const { change } = useView();
  return (
    <div className="notice">
      <p>No life that this question can use matches the scope above, so there is nothing to draw.</p>
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
