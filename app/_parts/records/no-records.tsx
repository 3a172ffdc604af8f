'use client';

import { OpenActs } from './open-acts.tsx';

/** Nothing is open: what can be opened, and that it stays here. */
export function NoRecords() {
  return (
    <div className="notice no-records">
      <p>No records are open. Open your fleet’s own, or look around in the invented demo fleet first.</p>
      <OpenActs />
      <p className="quiet">Files are read in this browser and never leave it.</p>
    </div>
  );
}
