import type { Finding } from '../../../shared/finding.ts';
import { deviationRows } from './shop-tables.ts';
import { TextTable } from './text-table.tsx';

/** How often each deviation was written down where it was told of, and how much was told. */
export function DeviationTable({ finding }: { finding: Finding }) {
  const table = deviationRows(finding);
  if (table === null) return null;
  return (
    <section className="aspect" aria-labelledby="recorded">
      <h2 id="recorded">What was written down at installation</h2>
      <p>
        The share with a deviation, of the lives that tell of it. A shop that writes less down shows fewer: read the
        last row with all others.
      </p>
      <TextTable caption="Deviations recorded, and how much was told" corner="deviation" table={table} />
    </section>
  );
}
