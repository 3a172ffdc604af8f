import { groupSays, lineWords } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import { CountLink } from '../finding/lives-link.tsx';

/** Lock, torque and missing components: every failed case however few. */
export function CriticalCases({ finding }: { finding: Finding }) {
  const lines = finding.groups.flatMap((group) => {
    const { critical } = lineWords(group);
    return critical === null ? [] : [{ group, critical }];
  });
  if (lines.length === 0) return null;
  return (
    <section className="aspect" aria-labelledby="critical">
      <h2 id="critical">Safety-critical, case by case</h2>
      <p>
        Lock, torque and missing components: such a step is changed on mechanism, not on statistics, however few the
        cases. None of these needs a ratio to be put right.
      </p>
      {lines.map(({ group, critical: { said, cases } }) => (
        <details key={group.label} className="cases">
          <summary>
            <b>{groupSays(group.by)}</b>: {said}
          </summary>
          <ul>
            {cases.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
          {group.failures > 0 && (
            <p>
              <CountLink finding={finding} group={group} counted="failures">
                All their lives
              </CountLink>
            </p>
          )}
        </details>
      ))}
    </section>
  );
}
