'use client';

import { useState } from 'react';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { preferences } from '../../_state/preferences.ts';
import { usePreferences } from '../../_state/use-preferences.ts';
import { useView } from '../../_state/use-view.ts';
import { PageLink } from '../frame/page-link.tsx';
import { tourSteps, type TourStep } from './tour-steps.ts';

function openSays(open: OpenRecordSet | null): string {
  if (open === null) return 'Open your own at the top right, or the demo fleet.';
  return open.report.invented
    ? 'What is open now is invented; open your own at the top right whenever you like.'
    : 'Yours are open.';
}

/** The way from opening to the brief in five steps; a strip that stands in nobody's way and can be put away. */
export function Tour() {
  const { tourDone } = usePreferences();
  const { search } = useView();
  const { open } = useRecordSet();
  const [at, setAt] = useState(0);
  const step = tourSteps[at] as TourStep;
  const last = at === tourSteps.length - 1;
  if (tourDone) return null;
  const putAway = () => {
    setAt(0);
    preferences.change({ tourDone: true });
  };
  return (
    <section className="tour" aria-label="Tour">
      <p className="tour-step" aria-live="polite">
        <b>
          {at + 1} of {tourSteps.length}: {step.name}.
        </b>{' '}
        {step.says} {at === 0 && openSays(open)}
      </p>
      <p className="tour-acts">
        <PageLink path={step.path} {...{ search, ...(step.anchor ? { anchor: step.anchor } : {}) }}>
          Show me
        </PageLink>
        {at > 0 && (
          <button type="button" className="word" onClick={() => setAt(at - 1)}>
            Step back
          </button>
        )}
        {!last && (
          <button type="button" className="word" onClick={() => setAt(at + 1)}>
            Next step
          </button>
        )}
        <button type="button" className="word" onClick={putAway}>
          {last ? 'End the tour' : 'Not now'}
        </button>
      </p>
    </section>
  );
}
