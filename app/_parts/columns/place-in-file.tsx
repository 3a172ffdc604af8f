import { useEffect, useRef, useState } from 'react';
import type { SourceChoice } from '../../../shared/source-choice.ts';
import { columnDrafts } from '../../_state/columns/column-drafts.ts';
import type { SourceLook } from '../../_state/columns-desk.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { withOnly } from '../../_state/columns/edit-columns.ts';
import { placeSays, sheetSays } from './column-words.ts';
import { FirstRows } from './first-rows.tsx';

type Sheet = SourceLook['sheets'][number];

/** Milliseconds that whoever types a number is left alone. */
const pause = 400;

/** Where in the file its rows stand, where that leaves a choice: the sheet, the row of headers, and the first rows there. */
export function PlaceInFile({ draft }: { draft: Draft }) {
  const { look, source, map, misplaced } = draft;
  const { number } = source;
  const { where = {} } = map;
  const [row, setRow] = useState(String(where.headerRow ?? ''));
  const unseen = look === null;
  useEffect(() => {
    if (unseen) void columnDrafts.look(number);
  }, [number, unseen]);
  const shown = sheetOf(draft);
  if (!look || !shown) return null;
  const place = (where: SourceChoice) => {
    setRow(String(where.headerRow ?? ''));
    void columnDrafts.place(number, where);
  };
  return (
    <details className="place-in-file" data-place={placeSays(shown, where)}>
      <summary>Where its rows stand: {placeSays(shown, where)}</summary>
      <div className="settings">
        {look.sheets.length > 1 && (
          <label>
            Sheet
            <select value={shown.name} onChange={({ target }) => place({ sheet: target.value })}>
              {look.sheets.map((sheet) => (
                <option key={sheet.name} value={sheet.name}>
                  {sheetSays(sheet)}
                </option>
              ))}
            </select>
          </label>
        )}
        <HeaderRow {...{ row, setRow, number, where, found: shown.headerRow }} />
        {map.where !== undefined && (
          <button type="button" className="word" onClick={() => place({})}>
            As it was found
          </button>
        )}
      </div>
      {misplaced !== null && <p role="alert">This file {misplaced}; what was chosen before holds.</p>}
      <FirstRows sheet={shown} headerRow={where.headerRow ?? shown.headerRow} />
    </details>
  );
}

/** The sheet chosen, else the one that is read without a choice. */
function sheetOf({ look, map }: Draft): Sheet | undefined {
  const { sheets = [] } = look ?? {};
  return sheets.find(({ name }) => name === map.where?.sheet) ?? sheets.find(({ likely }) => likely) ?? sheets[0];
}

interface HeaderRowProps {
  readonly row: string;
  readonly setRow: (row: string) => void;
  readonly number: number;
  readonly where: SourceChoice;
  readonly found: number | null;
}

function HeaderRow({ row, setRow, number, where, found }: HeaderRowProps) {
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);
  const take = (text: string) => {
    setRow(text);
    clearTimeout(timer.current);
    const typed = Number(text);
    if (text !== '' && !(Number.isSafeInteger(typed) && typed >= 1)) return;
    const there = withOnly(where, { headerRow: text === '' ? undefined : typed });
    timer.current = setTimeout(() => void columnDrafts.place(number, there), pause);
  };
  return (
    <label>
      The headers stand in row
      <input
        type="number"
        min={1}
        step={1}
        inputMode="numeric"
        value={row}
        placeholder={`${found ?? 1}, as found`}
        onChange={({ target }) => take(target.value)}
      />
    </label>
  );
}
