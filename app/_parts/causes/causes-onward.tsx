'use client';

import { valueSays } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import { measuredBehind, measuredWords } from '../../../shared/measured.ts';
import { useView } from '../../_state/use-view.ts';
import { OnwardLink } from '../finding/onward-link.tsx';

/** On from the deviation looked into, else the first ranked: the rule strip, and the measured value where it has one. */
export function CausesOnward({ finding }: { finding: Finding }) {
  const { view } = useView();
  const deviation = view.deviation ?? finding.groups[0]?.by['deviation'] ?? null;
  if (deviation === null) return null;
  const measured = measuredBehind[deviation];
  return (
    <>
      {finding.settings.outcome === 'component' && (
        <OnwardLink question="rules" part={{ by: [], deviation }}>
          {`Does the ratio of “${valueSays('deviation', deviation)}” depend on a choice of rule?`}
        </OnwardLink>
      )}
      {measured && (
        <OnwardLink question="dose" part={{ by: [], deviation }}>
          {`How much does the ${measuredWords[measured]} itself matter?`}
        </OnwardLink>
      )}
    </>
  );
}
