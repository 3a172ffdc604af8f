'use client';

import { passedOver, type ColumnMap, type Feeds } from '../../../shared/column-map.ts';
import { tableNames, type TableName } from '../../../shared/record-tables.ts';
import { columnDrafts } from '../../_state/columns/column-drafts.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { withMeaning } from '../../_state/columns/edit-columns.ts';
import { tableSays } from './column-words.ts';
import type { EditMap } from '../../_state/columns/edit-columns.ts';

type Mixed = Extract<Feeds, { by: string }>;
type Fed = TableName | typeof passedOver;

/** What each row is: the same for all of them, or told by the words of a column. */
export function FeedsChoice({ draft, edit }: { draft: Draft; edit: EditMap }) {
  const { source, map } = draft;
  const { feeds } = map;
  const take = (value: string) => {
    const header = value.replace(/^by /, '');
    const made: Feeds =
      header === value ? { table: value as TableName } : { by: header, words: {}, others: 'set-aside' };
    void columnDrafts.feed(source.number, made);
  };
  return (
    <>
      <label className="feeds">
        Each row is one of
        <select value={'by' in feeds ? `by ${feeds.by}` : feeds.table} onChange={({ target }) => take(target.value)}>
          {tableNames.map((table) => (
            <option key={table} value={table}>
              {tableSays[table]}
            </option>
          ))}
          <optgroup label="Several kinds in one list, told by">
            {source.headers.map((header) => (
              <option key={header} value={`by ${header}`}>
                the words of {header}
              </option>
            ))}
          </optgroup>
        </select>
      </label>
      {'by' in feeds && <TellingWords {...{ draft, edit, feeds }} />}
    </>
  );
}

function TellingWords({ draft, edit, feeds }: { draft: Draft; edit: EditMap; feeds: Mixed }) {
  const found = draft.tried?.words.find(({ table }) => table === null);
  const feed = (made: Mixed) => {
    const fed = (one: Mixed) => new Set<string>([...Object.values(one.words), one.others]);
    const known = fed(feeds);
    // A table that no row fed before needs its columns proposed.
    const fresh = [...fed(made)].some(
      (table) => !known.has(table) && draft.map.tables[table as TableName] === undefined,
    );
    if (fresh) void columnDrafts.feed(draft.source.number, made);
    else edit((now: ColumnMap) => ({ ...now, feeds: made }));
  };
  const take = (word: string, value: string) => {
    feed({ ...feeds, words: withMeaning(feeds.words, word, value === '' ? undefined : (value as Fed)) });
  };
  return (
    <fieldset className="telling-words">
      <legend>What a row is, by its word in “{feeds.by}”</legend>
      {found?.words.map(({ word, rows, meant }) => (
        <label key={word} data-word={word}>
          <span>
            {word === '' ? '(blank)' : word} <small>{rows.toLocaleString('en-US')}</small>
          </span>
          <select value={meant ?? ''} onChange={({ target }) => take(word, target.value)}>
            <FedOptions others="as any other word" />
          </select>
        </label>
      ))}
      {found && found.more > 0 && <p className="quiet">and {found.more} more words</p>}
      <label>
        <span>any other word</span>
        <select
          value={feeds.others}
          onChange={({ target }) => feed({ ...feeds, others: target.value as Mixed['others'] })}
        >
          <option value="set-aside">set aside, as in question</option>
          <FedOptions />
        </select>
      </label>
    </fieldset>
  );
}

function FedOptions({ others }: { others?: string }) {
  return (
    <>
      {others !== undefined && <option value="">{others}</option>}
      {tableNames.map((table) => (
        <option key={table} value={table}>
          {table}
        </option>
      ))}
      <option value={passedOver}>passed over: no business of wheel ends</option>
    </>
  );
}
