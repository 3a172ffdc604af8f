'use client';

import { recordSets, type Trouble } from '../../_state/record-sets.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { FileAccounts } from './file-accounts.tsx';
import { OpenActs } from './open-acts.tsx';

/** Opening went wrong: what, and what can be done. What was open before is still open. */
export function TroubleNotice() {
  const { trouble, open } = useRecordSet();
  if (trouble === null) return null;
  return (
    <section className="notice trouble" role="alert" data-trouble={trouble.kind}>
      <What trouble={trouble} />
      {/* With nothing open the page itself says what can be opened. */}
      {open && (
        <>
          <p>{open.report.name} is still open.</p>
          <OpenActs />
        </>
      )}
      <button type="button" className="word" onClick={recordSets.dismissTrouble}>
        Put this note away
      </button>
    </section>
  );
}

function What({ trouble }: { trouble: Trouble }) {
  if (trouble.kind === 'nothing-usable')
    return (
      <>
        <h2>Nothing in these files could be used</h2>
        <p>No row of them was kept. Each file says why:</p>
        <FileAccounts report={trouble.report} />
      </>
    );
  if (trouble.kind === 'engine')
    return (
      <>
        <h2>The engine could not start in this browser</h2>
        <p>
          Hubcause reads and counts inside the browser, which needs WebAssembly and workers. A current browser has both;
          a strict policy or an extension may forbid them. The browser says: {trouble.message}
        </p>
      </>
    );
  return (
    <>
      <h2>These records could not be read</h2>
      <p>{trouble.message}</p>
    </>
  );
}
