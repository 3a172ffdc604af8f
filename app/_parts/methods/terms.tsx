import type { Term } from '../../../shared/methods/definitions.ts';

/** Words with what they mean. */
export function Terms({ terms }: { terms: readonly Term[] }) {
  return (
    <dl className="terms">
      {terms.map(({ term, says }) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{says}</dd>
        </div>
      ))}
    </dl>
  );
}
