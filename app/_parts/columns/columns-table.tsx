'use client';

import { useMemo } from 'react';
import type { Draft } from '../../_state/columns/draft.ts';
import { usesOf, type ColumnUse } from '../../_state/columns/edit-columns.ts';
import { Becomes } from './becomes.tsx';
import { oursChoices, valueOf, type OursChoice } from './column-words.ts';
import type { EditMap } from '../../_state/columns/edit-columns.ts';
import { OursSelect } from './ours-select.tsx';
import { useGrowing } from './use-growing.ts';

/** Their columns: some of the values, which of ours each is, and what becomes of it. */
export function ColumnsTable({ draft, edit }: { draft: Draft; edit: EditMap }) {
  const { source, map } = draft;
  const feeds = JSON.stringify(map.feeds);
  // The choices hang on what the rows feed, and on nothing else of the map.
  // eslint-disable-next-line react-hooks/exhaustive-deps
  const choices = useMemo(() => oursChoices(map), [feeds]);
  const shown = useGrowing(source.headers.length);
  return (
    <section aria-labelledby="their-columns">
      <h3 id="their-columns">Their columns</h3>
      <table className="their-columns" role="table">
        <caption>* = a row cannot do without it</caption>
        <thead role="rowgroup">
          <tr role="row">
            {['their column', 'some of its values', 'ours', 'what becomes of it'].map((head) => (
              <th key={head} scope="col" role="columnheader" className="text-cell">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {source.headers.slice(0, shown).map((header, place) => (
            <ColumnRow
              key={header}
              {...{ draft, edit, header, choices, values: source.values[place] ?? [], uses: usesOf(map, header) }}
            />
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface RowProps {
  readonly draft: Draft;
  readonly edit: EditMap;
  readonly header: string;
  readonly values: readonly string[];
  readonly uses: readonly ColumnUse[];
  readonly choices: readonly OursChoice[];
}

function ColumnRow({ draft, edit, header, values, uses, choices }: RowProps) {
  const tells = 'by' in draft.map.feeds && draft.map.feeds.by === header;
  const unused = uses.length === 0;
  const { number } = draft.source;
  return (
    <tr role="row" data-header={header} className={unused && !tells ? 'unused' : undefined}>
      <th scope="row" role="rowheader" className="text-cell">
        {header}
      </th>
      <td role="cell" className="text-cell their-values">
        {values.length === 0 ? <span className="quiet">blank</span> : values.join(' · ')}
      </td>
      <td role="cell" className="text-cell">
        {tells && <p className="tells">tells what a row is</p>}
        {(unused ? [''] : uses.map(valueOf)).map((value, place) => (
          <OursSelect key={place} {...{ number, header, choices, value, place }} />
        ))}
      </td>
      <td role="cell" className="text-cell becomes">
        {unused && !tells && <span className="quiet">not used</span>}
        {uses.map((use) => (
          <Becomes key={valueOf(use)} {...{ draft, edit, header, use }} />
        ))}
      </td>
    </tr>
  );
}
