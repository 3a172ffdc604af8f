'use client';

import { memo } from 'react';
import { columnDrafts } from '../../_state/columns/column-drafts.ts';
import { usesOf, withoutUse, withUse } from '../../_state/columns/edit-columns.ts';
import { valueOf, type OursChoice } from './column-words.ts';

interface Props {
  /** Of the source. */
  readonly number: number;
  readonly header: string;
  readonly choices: readonly OursChoice[];
  /** What the column is read for, as `valueOf` says it; '' = nothing. */
  readonly value: string;
  /** Among what the column is read for. */
  readonly place: number;
}

/** Which of ours one of their columns is. Its many options stay as they are while the rest of the page changes. */
export const OursSelect = memo(function OursSelect({ number, header, choices, value, place }: Props) {
  const take = (next: string) => {
    const chosen = choices.find((choice) => choice.value === next);
    columnDrafts.edit(number, (now) => {
      const use = usesOf(now, header).find((one) => valueOf(one) === value);
      const without = use ? withoutUse(now, header, use) : now;
      return chosen ? withUse(without, header, chosen.use) : without;
    });
    if (chosen?.use.as === 'cells') void columnDrafts.choose(number, header, chosen.use.tables, chosen.use.ours);
  };
  return (
    <select
      aria-label={`Ours for ${header}${place > 0 ? `, ${place + 1}` : ''}`}
      value={value}
      onChange={({ target }) => take(target.value)}
    >
      <option value="">leave out</option>
      {value.endsWith(' unit') && <option value={value}>unit of {value.replace(/ unit$/, '')}</option>}
      {choices.map(({ value, label }) => (
        <option key={value} value={value}>
          {label}
        </option>
      ))}
    </select>
  );
});
