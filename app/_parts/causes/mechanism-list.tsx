'use client';

import { groupSays, lineWords } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import { useView } from '../../_state/use-view.ts';

/** What each deviation is thought to do, when that would tell, and whether it is seen then. */
export function MechanismList({ finding }: { finding: Finding }) {
  const { change } = useView();
  const lines = finding.groups.flatMap((group) => {
    const { mechanism } = lineWords(group);
    return mechanism === null ? [] : [{ group, mechanism }];
  });
  if (lines.length === 0) return null;
  return (
    <section className="aspect" aria-labelledby="mechanisms">
      <h2 id="mechanisms">What each is thought to do, and when that would tell</h2>
      <ul className="mechanisms">
        {lines.map(({ group, mechanism }) => (
          <li key={group.label}>
            <button
              type="button"
              className="word"
              aria-label={`Look into ${groupSays(group.by)}`}
              onClick={() => change({ deviation: group.by['deviation'] ?? null })}
            >
              {groupSays(group.by)}
            </button>{' '}
            <small>{group.firmness}</small> {mechanism}
          </li>
        ))}
      </ul>
    </section>
  );
}
