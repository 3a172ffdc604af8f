import { columnSays } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import { mixTables, stepTable } from './shop-tables.ts';
import { TextTable } from './text-table.tsx';

/** From the plain rate to like work, one thing at a time, and how unlike the work is. */
export function MixTables({ finding }: { finding: Finding }) {
  const steps = stepTable(finding);
  const mixes = mixTables(finding);
  const corner = columnSays(finding.settings.by[0] ?? 'shop');
  if (steps === null) return null;
  return (
    <section className="aspect" aria-labelledby="mix">
      <h2 id="mix">From plain to like for like</h2>
      <TextTable
        caption="Times the average of all, with one more thing taken into account"
        {...{ corner }}
        table={steps}
      />
      {mixes.length > 0 && (
        <details>
          <summary>How the work differs: shares of what was watched</summary>
          {mixes.map((table) => (
            <TextTable key={table.column} caption={columnSays(table.column)} {...{ corner, table }} />
          ))}
        </details>
      )}
    </section>
  );
}
