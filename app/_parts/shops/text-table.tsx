import type { PlainTable } from './shop-tables.ts';

interface Props {
  readonly caption: string;
  readonly corner: string;
  readonly table: PlainTable;
}

/** A table of texts that scrolls sideways where it has to. */
export function TextTable({ caption, corner, table: { heads, rows } }: Props) {
  return (
    <div className="wide" role="region" aria-label={`${caption}, scrolls sideways`} tabIndex={0}>
      <table className="ratio-table">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col" className="text-cell">
              {corner}
            </th>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, cells }) => (
            <tr key={name}>
              <th scope="row" className="text-cell">
                {name}
              </th>
              {cells.map((cell, index) => (
                <td key={heads[index]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
