import type { SourceLook } from '../../_state/columns-desk.ts';

const above = 3;
const below = 5;
const mostCells = 30;

/** Rows about the one that holds the headers, as they stand in the file. */
export function FirstRows({
  sheet: { rows },
  headerRow,
}: {
  sheet: SourceLook['sheets'][number];
  headerRow: number | null;
}) {
  const at = rows.findIndex(({ line }) => line === headerRow);
  const shown = rows.slice(Math.max(0, at - above), Math.max(0, at) + below + 1);
  const width = Math.min(mostCells, Math.max(0, ...shown.map(({ cells }) => cells.findLastIndex(Boolean) + 1)));
  if (at < 0 && headerRow !== null)
    return <p className="quiet">Row {headerRow} stands below the first rows, which alone are shown here.</p>;
  return (
    <div className="wide" role="region" aria-label="First rows of the file, scrolls sideways" tabIndex={0}>
      <table className="first-rows">
        <caption>Its rows as they stand; the headers are marked</caption>
        <tbody>
          {shown.map(({ line, cells }) => (
            <tr key={line} className={line === headerRow ? 'headers' : undefined} data-row={line}>
              <th scope="row">
                {line}
                {line === headerRow && <span className="unseen"> has the headers</span>}
              </th>
              {Array.from({ length: width }, (_, place) => (
                <td key={place} className="text-cell">
                  {(cells[place] ?? '').slice(0, 60)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
