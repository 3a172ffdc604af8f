'use client';

import { broughtBriefs } from '../../_state/brief/brought-briefs.ts';
import { useBroughtBriefs } from '../../_state/brief/use-brought-briefs.ts';

/** What becomes of a brief that a file brought: what came of it, or whether it may take the place of the one here. */
export function BroughtBrief() {
  const { waiting, doing, said, trouble } = useBroughtBriefs();
  if (trouble !== null)
    return (
      <p className="notice" role="alert">
        {trouble}
      </p>
    );
  if (waiting === null)
    return doing === null && said === null ? null : (
      <p className="notice" role="status" data-brought={doing === null ? 'taken' : 'doing'}>
        {doing === null ? said : `${doing} …`}
      </p>
    );
  return (
    <div className="notice" data-brought="waiting">
      <p role="status">
        {waiting.name} holds a brief. One is begun here, and stands until you say otherwise: save it first (“Brief to go
        on with”) if it is to be kept.
      </p>
      <p className="acts">
        <button type="button" className="word" onClick={() => void broughtBriefs.letIn()}>
          Put the one from the file in its place
        </button>
        <button type="button" className="word" onClick={broughtBriefs.leave}>
          Leave it
        </button>
      </p>
    </div>
  );
}
