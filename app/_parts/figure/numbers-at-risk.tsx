import { numbersAtRisk, type Figure } from '../../../lib/charts/index.ts';
import { livesAtRisk } from '../../../lib/view/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import { LivesLink } from '../finding/lives-link.tsx';

/** How many lives are still at risk, each number straight under the axis mark it belongs to. */
export function NumbersAtRisk({ finding, figure }: { finding: Finding; figure: Figure }) {
  const rows = numbersAtRisk(
    finding,
    figure.ticks.map(({ age }) => age),
  );
  if (rows.length === 0) return null;
  const [first] = figure.ticks;
  const behind = (label: string, miles: number, count: number) => {
    const group = finding.groups.find((candidate) => candidate.label === label);
    // Ages of the account are whole miles; a tick may be some hair off one.
    return group === undefined || count === 0 ? null : livesAtRisk(finding, group, Math.round(miles));
  };
  return (
    <div className={figure.namesLeft ? 'at-risk' : 'at-risk over'}>
      <table style={{ width: figure.width }}>
        <caption>At risk</caption>
        <thead className="unseen-head">
          <tr>
            <th scope="col">group</th>
            {figure.ticks.map(({ age, text }) => (
              <th key={age} scope="col">
                {text}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ group, says, counts }) => (
            <tr key={group}>
              <th scope="row">{says}</th>
              {counts.map((count, index) => (
                <td key={figure.ticks[index]?.age} style={{ left: figure.ticks[index]?.x ?? first?.x ?? 0 }}>
                  {count === null ? (
                    ''
                  ) : (
                    <LivesLink behind={behind(group, figure.ticks[index]?.age ?? 0, count)}>
                      {count.toLocaleString('en-US')}
                    </LivesLink>
                  )}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
