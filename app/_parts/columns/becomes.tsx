'use client';

import { positionColumn, type ColumnSource } from '../../../shared/column-map.ts';
import { recordTables } from '../../../shared/record-tables.ts';
import type { CellUnit } from '../../../shared/units.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { unitChoices } from '../../_state/columns/unit-choices.ts';
import { sourcesOf, withOnly, withSource, type ColumnUse } from '../../_state/columns/edit-columns.ts';
import { oursSays } from './column-words.ts';
import type { EditMap } from '../../_state/columns/edit-columns.ts';
import { BeforeAfter } from './before-after.tsx';
import { WordChoices } from './word-choices.tsx';

interface Props {
  readonly draft: Draft;
  readonly edit: EditMap;
  readonly header: string;
  readonly use: ColumnUse;
}

/** What becomes of one of their columns: its unit, its days, its words, and some cells before and after. */
export function Becomes({ draft, edit, header, use }: Props) {
  const { ours, tables, as } = use;
  const [source] = sourcesOf(draft.map, tables, ours);
  const column = recordTables[tables[0] ?? 'services'].find(({ name }) => name === ours);
  if (!source || as === 'unit') return <p className="quiet">says the unit of {oursSays(ours)}</p>;
  const [lead] = source.from ?? [];
  const leads = lead?.header === header;
  const change = (part: { [Key in keyof ColumnSource]?: ColumnSource[Key] | undefined }) =>
    edit((now) => withSource(now, tables, ours, (source) => source && withOnly(source, part)));
  const units = column ? unitChoices(column) : [];
  const trouble = draft.tried && typeof draft.tried.preview !== 'string' ? draft.tried.preview.columns : [];
  const faulty = trouble.some((one) => tables.includes(one.table) && one.ours === ours && one.reasons.length > 0);
  return (
    <div className="one-use">
      {units.length > 0 && (
        <label>
          in{' '}
          <select
            aria-label={`Unit of ${header}`}
            value={source.unit ?? units[0]}
            onChange={({ target }) => change({ unit: target.value as CellUnit })}
          >
            {units.map((unit) => (
              <option key={unit}>{unit}</option>
            ))}
          </select>
        </label>
      )}
      {ours === 'date' && (
        <label>
          the day{' '}
          <select
            aria-label={`What day ${header} is`}
            value={source.day ?? 'repair'}
            onChange={({ target }) => change({ day: target.value as NonNullable<ColumnSource['day']> })}
          >
            <option value="repair">of the work or finding itself</option>
            <option value="opened">the order was opened</option>
            <option value="closed">the order was closed</option>
          </select>
        </label>
      )}
      {ours === 'unit_id' && <IdFields {...{ source, header, change }} />}
      {leads ? <Joined {...{ source, header, change }} /> : <p className="quiet">together with {lead?.header}</p>}
      <WordChoices {...{ draft, edit, header, use }} />
      {leads && <BeforeAfter {...{ draft, header, use }} />}
      {column && !column.required && ours !== positionColumn && (faulty || source.unreadable === 'blank') && (
        <label className="tick-label">
          <input
            type="checkbox"
            checked={source.unreadable === 'blank'}
            onChange={({ target }) => change({ unreadable: target.checked ? 'blank' : undefined })}
          />
          cells that cannot be read count as not known, and the row is kept
        </label>
      )}
    </div>
  );
}

interface SourceProps {
  readonly source: ColumnSource;
  readonly header: string;
  readonly change: (part: { [Key in keyof ColumnSource]?: ColumnSource[Key] | undefined }) => void;
}

function Joined({ source: { from = [], joined }, header, change }: SourceProps) {
  if (from.length < 2) return null;
  const others = from.filter((part) => part.header !== header).map((part) => part.header);
  return (
    <label>
      with {others.join(', ')}{' '}
      <select
        aria-label={`How ${header} is joined with ${others.join(', ')}`}
        value={joined ?? 'space'}
        onChange={({ target }) => change({ joined: target.value as NonNullable<ColumnSource['joined']> })}
      >
        <option value="space">one after the other</option>
        <option value="dash">with a dash between</option>
        <option value="list">as one list</option>
        <option value="first-filled">whichever is filled first</option>
      </select>
    </label>
  );
}

function IdFields({ source, header, change }: SourceProps) {
  return (
    <details className="id-fields" open={source.drop !== undefined || source.padTo !== undefined ? true : undefined}>
      <summary>text in front, zeros</summary>
      <label>
        without{' '}
        <input
          aria-label={`In front of ${header}, no part of the number`}
          size={4}
          value={source.drop ?? ''}
          onChange={({ target }) => change({ drop: target.value || undefined })}
        />{' '}
        in front,
      </label>{' '}
      <label>
        filled with zeros to{' '}
        <input
          aria-label={`Digits to which zeros fill ${header}`}
          size={2}
          inputMode="numeric"
          value={source.padTo ?? ''}
          onChange={({ target }) => {
            const digits = Number.parseInt(target.value, 10);
            change({ padTo: digits >= 1 && digits <= 40 ? digits : undefined });
          }}
        />{' '}
        digits
      </label>
    </details>
  );
}
