interface QualityTableProps {
  readonly caption: string;
  readonly heads: readonly string[];
  /** How many columns from the left hold words; the rest are numbers. */
  readonly words: number;
  readonly rows: readonly (readonly string[])[];
}

/** A plain table that scrolls sideways where it must. */
export function QualityTable({ caption, heads, words, rows }: QualityTableProps) {
  const kind = (column: number) => (column < words ? 'text-cell' : undefined);
  return (
    <div className="wide" role="region" aria-label={`${caption}, scrolls sideways`} tabIndex={0}>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {heads.map((head, column) => (
              <th key={head} scope="col" className={kind(column)}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells) => (
            <tr key={cells.slice(0, words).join(' · ')}>
              {cells.map((cell, column) =>
                column === 0 ? (
                  <th key={heads[column]} scope="row" className="text-cell">
                    {cell}
                  </th>
                ) : (
                  <td key={heads[column]} className={kind(column)}>
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
