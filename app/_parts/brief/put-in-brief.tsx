'use client';

import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { briefStore } from '../../_state/brief/brief-store.ts';
import { useBrief } from '../../_state/brief/use-brief.ts';
import { useView } from '../../_state/use-view.ts';
import { PageLink } from '../frame/page-link.tsx';

interface Props {
  readonly finding: Finding;
  readonly units: UnitSystem;
  /** The answer is that of the view, its doubts all checked: nothing less goes into a brief. */
  readonly whole: boolean;
}

/** The last step of every question page: what was found goes where the case for a change is made. */
export function PutInBrief({ finding, units, whole }: Props) {
  const { search } = useView();
  const { brief } = useBrief();
  const held = briefStore.holds(finding, units);
  const count = brief.entries.length;
  return (
    <p className="put-in-brief" id="put-in-brief" role="status">
      <button
        type="button"
        className="main-act"
        disabled={!whole || held}
        onClick={() => briefStore.put(finding, units)}
      >
        {held ? 'In the brief' : 'Put in the brief'}
      </button>
      {count > 0 && (
        <PageLink path="/brief/" search={search}>
          The brief, {count === 1 ? 'one finding' : `${count} findings`}
        </PageLink>
      )}
    </p>
  );
}
