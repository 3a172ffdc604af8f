'use client';

import { useState } from 'react';
import { distanceSays } from '../../../lib/charts/index.ts';
import type { SourceRow } from '../../../lib/lives/index.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { useDeskAnswer } from '../../_state/use-desk-answer.ts';
import { partSays, qualitySays } from './source-words.ts';

/** Files up to so many bytes are read again without being asked to. */
const quickBytes = 60_000_000;

const quick = ({ files }: OpenRecordSet): boolean =>
  files === null || files.reduce((sum, { file }) => sum + file.size, 0) <= quickBytes;

const keyOf = ({ file, table, line }: Pick<SourceRow, 'file' | 'table' | 'line'>): string => `${file} ${table} ${line}`;

interface Props {
  readonly open: OpenRecordSet;
  readonly rows: readonly SourceRow[];
  readonly units: UnitSystem;
}

/** Every row of the records behind a life: what it did, where it stands, and how it was written. */
export function LifeRows({ open, rows, units }: Props) {
  const [asked, setAsked] = useState(false);
  const wanted = rows.map(({ file, table, line }) => ({ file, table, line }));
  const reading = asked || quick(open);
  const { value, settled, trouble } = useDeskAnswer(reading ? JSON.stringify(wanted) : null, (set, job) =>
    set.desk.rowsAsWritten(job, wanted),
  );
  const written = new Map((value ?? []).map((row) => [keyOf(row), row.written]));
  return (
    <section className="life-rows" aria-labelledby="life-rows">
      <h3 id="life-rows">The rows behind it</h3>
      <div className="wide" role="region" aria-label="Rows behind the life, scrolls sideways" tabIndex={0}>
        <table>
          <thead>
            <tr>
              {['what it did', 'on', 'at', 'row', 'as written in the file', 'as read'].map((head) => (
                <th key={head} scope="col" className={head === 'at' ? undefined : 'text-cell'}>
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={keyOf(row)} data-part={row.part}>
                <th scope="row" className="text-cell">
                  {partSays(row)}
                </th>
                <td className="text-cell day-cell">{row.day ?? '—'}</td>
                <td className="miles-cell">
                  {row.miles === null ? '—' : distanceSays(row.miles, units)}
                  {qualitySays(row) !== '' && <small>{qualitySays(row)}</small>}
                </td>
                <td className="text-cell place-cell">
                  {row.table} {row.id}
                  <small>
                    {row.file}, line {row.line.toLocaleString('en-US')}
                  </small>
                </td>
                <td className="text-cell written-cell">
                  {reading && !settled ? '…' : (written.get(keyOf(row)) ?? (reading ? 'not to be had any more' : '—'))}
                </td>
                <td className="text-cell cells-cell">
                  <details>
                    <summary>
                      {row.cells.length} {row.cells.length === 1 ? 'cell' : 'cells'}
                    </summary>
                    {row.cells.map(([column, cell]) => (
                      <span key={column}>
                        {column} = {cell}
                      </span>
                    ))}
                  </details>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {trouble && <p role="alert">The files could not be read again: {trouble}</p>}
      {!reading && (
        <button type="button" className="word" onClick={() => setAsked(true)}>
          Read them as written (the files are read again, which takes a while)
        </button>
      )}
    </section>
  );
}
