'use client';

import { positionColumn } from '../../../shared/column-map.ts';
import { recordTables, type TableName } from '../../../shared/record-tables.ts';
import { columnDrafts } from '../../_state/columns/column-drafts.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { withSource, withUse } from '../../_state/columns/edit-columns.ts';
import { oursSays } from './column-words.ts';

interface Props {
  readonly draft: Draft;
  readonly table: TableName;
  readonly ours: string;
}

/** A column that the table needs and nothing fills: one of theirs, or the same for every row. */
export function MissingColumn({ draft, table, ours }: Props) {
  const { source } = draft;
  const column = recordTables[table].find(({ name }) => name === ours);
  const id = ours.endsWith('_id') && ours !== 'unit_id';
  const fixable = column?.choices !== undefined;
  const take = (value: string) => {
    const [kind = '', ...rest] = value.split(' ');
    const said = rest.join(' ');
    if (kind === 'column') {
      columnDrafts.edit(source.number, (map) => withUse(map, said, { ours, as: 'cells', tables: [table] }));
      void columnDrafts.choose(source.number, said, [table], ours);
    }
    if (kind === 'fixed')
      columnDrafts.edit(source.number, (map) => withSource(map, [table], ours, () => ({ ours, fixed: said })));
    if (kind === 'made')
      columnDrafts.edit(source.number, (map) => withSource(map, [table], ours, () => ({ ours, made: 'of-row' })));
  };
  return (
    <label className="missing" data-missing={ours}>
      <span>
        Which column says the <b>{ours === positionColumn ? 'place: axle and side' : oursSays(ours)}</b>? {table} need
        it.
      </span>
      <select value="" onChange={({ target }) => take(target.value)}>
        <option value="">not said yet</option>
        <optgroup label="Their columns">
          {source.headers.map((header) => (
            <option key={header} value={`column ${header}`}>
              {header}
            </option>
          ))}
        </optgroup>
        {id && <option value="made ">no column: make one of the whole row</option>}
        {fixable && (
          <optgroup label="The same for every row">
            {column.choices.map((word) => (
              <option key={word} value={`fixed ${word}`}>
                always {word}
              </option>
            ))}
          </optgroup>
        )}
      </select>
    </label>
  );
}
