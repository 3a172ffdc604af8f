import { numbersAtRisk, type Figure } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';

/** How many lives are still at risk, each number straight under the axis mark it belongs to. */
export function NumbersAtRisk({ finding, figure }: { finding: Finding; figure: Figure }) {
  const rows = numbersAtRisk(
    finding,
    figure.ticks.map(({ miles }) => miles),
  );
  if (rows.length === 0) return null;
  const [first] = figure.ticks;
  return (
    <div className={figure.namesLeft ? 'at-risk' : 'at-risk over'}>
      <table style={{ width: figure.width }}>
        <caption>At risk</caption>
        <thead className="unseen-head">
          <tr>
            <th scope="col">group</th>
            {figure.ticks.map(({ miles, text }) => (
              <th key={miles} scope="col">
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
                <td key={figure.ticks[index]?.miles} style={{ left: figure.ticks[index]?.x ?? first?.x ?? 0 }}>
                  {count === null ? '' : count.toLocaleString('en-US')}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
