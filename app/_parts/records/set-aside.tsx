'use client';

import { useEffect, useState } from 'react';
import type { SetAsideRow } from '../../../shared/record-set.ts';
import { messageOf, type OpenRecordSet } from '../../_state/record-sets.ts';
import type { TableUse } from '../../../shared/record-quality.ts';
import { saveFile } from '../finding/save-file.ts';
import { PageTurner } from '../frame/page-turner.tsx';
import { QualityTable } from './quality-table.tsx';
import { reasonKinds } from './reason-kinds.ts';
import { rowTotals } from './opened-words.ts';

const pageRows = 50;

/** Rows not used, a page at a time, each with where it stood, what is wrong and what would be accepted. */
export function SetAside({ open, tables }: { open: OpenRecordSet; tables: readonly TableUse[] | null }) {
  const total = rowTotals(open.report).setAside;
  const [offset, setOffset] = useState(0);
  const [rows, setRows] = useState<readonly SetAsideRow[] | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    if (total === 0) return;
    open.desk.setAside(offset, pageRows).then(
      (page) => wanted && setRows(page),
      (error: unknown) => wanted && setTrouble(messageOf(error)),
    );
    return () => {
      wanted = false;
    };
  }, [open, offset, total]);
  const save = () => {
    open.desk.setAsideCsv().then(
      (file) => saveFile(file, `set-aside${open.report.invented ? '-invented' : ''}.csv`),
      (error: unknown) => setTrouble(messageOf(error)),
    );
  };
  return (
    <section aria-labelledby="set-aside" data-set-aside={total}>
      <h2 id="set-aside">Set aside</h2>
      {total === 0 ? (
        <p>No row was set aside: every one of these files could be used as it stands.</p>
      ) : (
        <>
          <Reasons tables={tables ?? []} />
          <SetAsideTable rows={rows} />
        </>
      )}
      {trouble && <p role="alert">The rows could not be fetched: {trouble}</p>}
      {total > 0 && (
        <div className="acts">
          <button type="button" className="word" onClick={save}>
            All rows set aside (CSV)
          </button>
          <PageTurner
            label="Pages of rows set aside"
            {...{ offset, total, rows: pageRows }}
            words={['Earlier rows', 'Further rows']}
            onTurn={setOffset}
          />
        </div>
      )}
    </section>
  );
}

/** The same by reason: what to put right first. */
function Reasons({ tables }: { tables: readonly TableUse[] }) {
  const told = reasonKinds(tables);
  if (told.length === 0) return null;
  return (
    <QualityTable
      caption={`By what is wrong, most rows first${told.length > mostReasons ? `; ${told.length - mostReasons} more among the rows below` : ''}`}
      heads={['table', 'what is wrong', 'rows']}
      words={2}
      rows={told.slice(0, mostReasons).map(({ table, reason, rows }) => [table, reason, rows.toLocaleString('en-US')])}
    />
  );
}

const mostReasons = 12;

const heads = ['file', 'row', 'column', 'value', 'what is wrong', 'what would be accepted'];

function SetAsideTable({ rows }: { rows: readonly SetAsideRow[] | null }) {
  return (
    <div className="wide" role="region" aria-label="Rows set aside, scrolls sideways" tabIndex={0}>
      <table className="set-aside">
        <caption>Row counts lines of the file, its header being line 1</caption>
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col" className={head === 'row' ? undefined : 'text-cell'}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {(rows ?? []).map(({ file, row, column, value, reason, accepted }, index) => (
            <tr key={index}>
              <td className="text-cell">{file}</td>
              <td>{row.toLocaleString('en-US')}</td>
              <td className="text-cell">{column}</td>
              <td className="text-cell value-cell">{value}</td>
              <td className="text-cell">{reason}</td>
              <td className="text-cell">{accepted}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
