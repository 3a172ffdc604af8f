'use client';

import { OpenActs } from './open-acts.tsx';

/** Nothing is open: what this is, what can be opened, and that it stays here. */
export function NoRecords() {
  return (
    <div className="notice no-records">
      <p>
        Hubcause finds out why wheel ends fail early, from the service and failure records a fleet already keeps. It
        answers with numbers, their limits and the doubts about them, and takes them into a brief for a change of
        procedure.
      </p>
      <p>
        No records are open. Open your fleet’s own, or look around first in the invented demo fleet: tidy, or as five
        shops would export it, with all that is wrong in such files.
      </p>
      <OpenActs />
      <p className="quiet">Records are read in this browser and never leave it.</p>
    </div>
  );
}
