'use client';

import { useState } from 'react';
import { fedTables, type ColumnSource } from '../../../shared/column-map.ts';
import { recordTables, type TableName } from '../../../shared/record-tables.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { tablesWith, withSource } from '../../_state/columns/edit-columns.ts';
import { oursSays } from './column-words.ts';
import type { EditMap } from '../../_state/columns/edit-columns.ts';

/** Columns of ours that no column of theirs fills: the same for every row, or an id made of the row. */
export function FixedColumns({ draft: { map }, edit }: { draft: Draft; edit: EditMap }) {
  const fed = fedTables(map.feeds);
  const found = fed.flatMap((table) =>
    (map.tables[table] ?? []).filter(({ from }) => from === undefined).map((source) => ({ table, source })),
  );
  const filled = new Set(fed.flatMap((table) => (map.tables[table] ?? []).map(({ ours }) => ours)));
  const free = [...new Set(fed.flatMap((table) => recordTables[table].map(({ name }) => name)))].filter(
    (name) => !filled.has(name) && !['axle', 'side'].includes(name) && !/^(service|failure|inspection)_id$/.test(name),
  );
  const drop = (table: TableName, ours: string) => edit((now) => withSource(now, [table], ours, () => undefined));
  return (
    <section className="fixed-columns" aria-labelledby="no-column">
      <h3 id="no-column">Without a column</h3>
      {found.length > 0 && (
        <ul>
          {found.map(({ table, source }) => (
            <li key={`${table} ${source.ours}`}>
              <b>{oursSays(source.ours)}</b>
              {fed.length > 1 && ` (${table})`}: {saidOf(source)}{' '}
              <button type="button" className="word" onClick={() => drop(table, source.ours)}>
                Take it out
              </button>
            </li>
          ))}
        </ul>
      )}
      <AddFixed
        free={free}
        onAdd={(ours, fixed) => edit((now) => withSource(now, tablesWith(now, ours), ours, () => ({ ours, fixed })))}
      />
    </section>
  );
}

const saidOf = ({ fixed }: ColumnSource): string =>
  fixed === undefined ? 'made of the whole row, so that the same row has the same id next month' : `always “${fixed}”`;

function AddFixed({ free, onAdd }: { free: readonly string[]; onAdd: (ours: string, fixed: string) => void }) {
  const [ours, setOurs] = useState('');
  const [fixed, setFixed] = useState('');
  const take = (name: string) => {
    setOurs(name);
    setFixed('');
  };
  const choices = Object.values(recordTables)
    .flat()
    .find(({ name }) => name === ours)?.choices;
  const ready = ours !== '' && fixed.trim() !== '';
  return (
    <p className="add-fixed">
      <label>
        The same for every row:{' '}
        <select value={ours} onChange={({ target }) => take(target.value)}>
          <option value="">choose a column of ours</option>
          {free.map((name) => (
            <option key={name} value={name}>
              {oursSays(name)}
            </option>
          ))}
        </select>
      </label>
      {ours !== '' && (
        <>
          <label>
            is always{' '}
            {choices ? (
              <select value={fixed} onChange={({ target }) => setFixed(target.value)}>
                <option value="">choose</option>
                {choices.map((choice) => (
                  <option key={choice}>{choice}</option>
                ))}
              </select>
            ) : (
              <input value={fixed} onChange={({ target }) => setFixed(target.value)} />
            )}
          </label>
          <button
            type="button"
            className="word"
            disabled={!ready}
            onClick={() => {
              onAdd(ours, fixed.trim());
              setOurs('');
              setFixed('');
            }}
          >
            Add
          </button>
        </>
      )}
    </p>
  );
}
