'use client';

import { useState } from 'react';
import { columnDrafts } from '../../_state/columns/column-drafts.ts';
import type { WordsInUse } from '../../_state/columns-desk.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { withWord, type ColumnUse } from '../../_state/columns/edit-columns.ts';
import type { EditMap } from '../../_state/columns/edit-columns.ts';
import { counted } from './column-words.ts';

interface Props {
  readonly draft: Draft;
  readonly edit: EditMap;
  readonly header: string;
  readonly use: ColumnUse;
}

/** Layouts of axles that lists of vehicles name by one word. */
const layouts = [
  ...['steer drive', 'steer drive drive', 'steer drive tag', 'steer pusher drive drive', 'steer steer drive drive'],
  ...['steer drive drive lift', 'trailer', 'trailer trailer', 'trailer trailer trailer'],
];

/** What the words of their column mean in ours, those not understood first. */
export function WordChoices({ draft, edit, header, use }: Props) {
  const [shown, setShown] = useState<boolean | null>(null);
  const found = merged(draft, header, use);
  if (found === null || found.words.length === 0) return null;
  const odd = found.words.filter(({ meant }) => meant === null).length;
  const open = shown ?? odd > 0;
  const choices = [...(use.ours === 'axle_roles' ? layouts : []), ...found.choices];
  const all = [...new Set([...choices, ...found.words.flatMap(({ meant }) => (meant ? [meant] : []))])];
  return (
    <details className="word-choices" open={open} onToggle={({ currentTarget }) => setShown(currentTarget.open)}>
      <summary>
        {counted(found.words.length + found.more, 'word')}
        {odd > 0 && <b>, {odd} not understood</b>}
      </summary>
      {open && (
        <div className="word-list">
          {found.words.map(({ word, rows, meant }) => (
            <label key={word} data-word={word} className={meant === null ? 'odd' : undefined}>
              <span>
                {word} <small>{rows.toLocaleString('en-US')}</small>
              </span>
              <select
                aria-label={`${word} in ${header} means`}
                value={meant === null ? 'nothing' : `ours ${meant}`}
                onChange={({ target }) => {
                  const value = target.value === 'nothing' ? undefined : target.value.replace(/^ours /, '');
                  edit((now) => withWord(now, use.tables, use.ours, header, word, value));
                }}
              >
                <option value="nothing">not understood</option>
                <option value="ours ">not known</option>
                {all.map((choice) => (
                  <option key={choice} value={`ours ${choice}`}>
                    {choice}
                  </option>
                ))}
              </select>
            </label>
          ))}
          {found.more > 0 && <p className="quiet">and {counted(found.more, 'more word', 'more words')}</p>}
          {odd > 1 && (
            <button
              type="button"
              className="word"
              onClick={() => {
                const words = found.words.filter(({ meant }) => meant === null).map(({ word }) => word);
                columnDrafts.edit(draft.source.number, (map) =>
                  words.reduce((now, word) => withWord(now, use.tables, use.ours, header, word, ''), map),
                );
              }}
            >
              Those not understood count as not known
            </button>
          )}
        </div>
      )}
    </details>
  );
}

/** The words of all tables that the column feeds, as the draft now has them. */
function merged({ tried }: Draft, header: string, { ours, tables }: ColumnUse): WordsInUse | null {
  const found = (tried?.words ?? []).filter(
    (words) => words.ours === ours && words.header === header && words.table !== null && tables.includes(words.table),
  );
  const [first, ...others] = found;
  if (!first) return null;
  const words = new Map(first.words.map((word) => [word.word.toLowerCase(), word]));
  for (const { word, rows, meant } of others.flatMap((one) => one.words)) {
    const known = words.get(word.toLowerCase());
    words.set(word.toLowerCase(), known ? { ...known, rows: known.rows + rows } : { word, rows, meant });
  }
  return { ...first, words: [...words.values()] };
}
