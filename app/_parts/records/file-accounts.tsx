import type { FileAccount, ReadReport } from '../../../shared/record-set.ts';
import { MapNote } from '../columns/map-note.tsx';
import { rowTotals } from './opened-words.ts';

const whole = (value: number) => value.toLocaleString('en-US');

/** A file that feeds several tables has an account for each. */
const isFirst = ({ files }: ReadReport, file: FileAccount): boolean =>
  files.find(({ name }) => name === file.name) === file;

/** The account of every file: read = kept + set aside. */
export function FileAccounts({ report }: { report: ReadReport }) {
  const total = rowTotals(report);
  return (
    <div className="wide" role="region" aria-label="Files, scrolls sideways" tabIndex={0}>
      <table className="file-accounts">
        <caption>Rows by file: read = kept + set aside</caption>
        <thead>
          <tr>
            <th scope="col" className="text-cell">
              file
            </th>
            <th scope="col" className="text-cell">
              feeds
            </th>
            <th scope="col">read</th>
            <th scope="col">kept</th>
            <th scope="col">set aside</th>
            <th scope="col" className="text-cell">
              notes
            </th>
          </tr>
        </thead>
        <tbody>
          {report.files.map((file) => (
            <tr key={`${file.name} ${file.table ?? ''}`}>
              <th scope="row" className="text-cell">
                {file.name}
              </th>
              <td className="text-cell">{file.table ?? '—'}</td>
              <td>{whole(file.read)}</td>
              <td>{whole(file.kept)}</td>
              <td>{whole(file.setAside)}</td>
              <td className="text-cell note-cell">
                {file.refused}
                {file.columnMap !== undefined && isFirst(report, file) && <MapNote source={file.columnMap} />}
                {file.unusedColumns.length > 0 && <small> Not used: {file.unusedColumns.join(', ')}</small>}
              </td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row" className="text-cell">
              all files
            </th>
            <td />
            <td>{whole(total.read)}</td>
            <td>{whole(total.kept)}</td>
            <td>{whole(total.setAside)}</td>
            <td />
          </tr>
        </tfoot>
      </table>
    </div>
  );
}
