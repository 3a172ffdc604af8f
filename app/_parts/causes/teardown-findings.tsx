import { valueSays } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';

/** What teardowns found after failures: apart, since nothing is known of parts that did not fail. */
export function TeardownFindings({ finding: { series } }: { finding: Finding }) {
  const found = series
    .filter(({ name }) => name === 'teardown')
    .map(({ group, columns }) => ({ group, found: columns['found']?.[0] ?? 0, opened: columns['tornDown']?.[0] ?? 0 }))
    .sort((a, b) => b.found - a.found);
  const [first] = found;
  if (first === undefined) return null;
  const count = (value: number) => value.toLocaleString('en-US');
  return (
    <section className="aspect" aria-labelledby="teardowns">
      <h2 id="teardowns">Found at teardown only</h2>
      <p>
        {count(first.opened)} failures have a teardown that says what it found. Parts that did not fail were not torn
        down, so none of this can be set against lives without it: it counts in no ratio above.
      </p>
      <details>
        <summary>What was found, and how often</summary>
        <table className="found-table">
          <thead>
            <tr>
              <th scope="col" className="text-cell">
                found
              </th>
              <th scope="col">of {count(first.opened)} teardowns</th>
            </tr>
          </thead>
          <tbody>
            {found.map(({ group, found: times }) => (
              <tr key={group}>
                <th scope="row" className="text-cell">
                  {valueSays('deviation', group)}
                </th>
                <td>{count(times)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}
