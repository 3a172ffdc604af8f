import type { ReactNode } from 'react';
import { deviations } from '../../../shared/deviations.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { ShopTicks } from './shop-ticks.tsx';
import { shopsOf } from './shops-of.ts';

/** A change as it is being written down. */
export interface ChangeDraft {
  readonly name: string;
  readonly date: string;
  readonly shops: readonly string[];
  readonly what: string;
  readonly procedure: string;
  readonly deviations: readonly string[];
  readonly expectedRatio: number;
  readonly success: string;
  readonly stop: string;
}

interface Props {
  readonly draft: ChangeDraft;
  readonly open: OpenRecordSet;
  /** What the shops and the ratio take to be seen. */
  readonly says: string;
  readonly onEdit: (part: Partial<ChangeDraft>) => void;
}

/** The fields of a change written down. */
export function ChangeFields({ draft, open, says, onEdit }: Props) {
  const text = (label: string, name: 'name' | 'what' | 'procedure' | 'success' | 'stop') => (
    <Field label={label}>
      <input value={draft[name]} onChange={({ target }) => onEdit({ [name]: target.value })} />
    </Field>
  );
  return (
    <>
      {text('Name', 'name')}
      <Field label="First day of the new way">
        <input type="date" value={draft.date} onChange={({ target }) => onEdit({ date: target.value })} />
      </Field>
      <ShopTicks {...{ shops: shopsOf(open), ticked: draft.shops }} onTick={(shops) => onEdit({ shops })} />
      {text('What is done differently', 'what')}
      {text('Version of the procedure from then on', 'procedure')}
      <Field label="Deviations that should get rarer (none chosen: any)">
        <select
          multiple
          size={5}
          value={[...draft.deviations]}
          onChange={({ target }) => onEdit({ deviations: [...target.selectedOptions].map(({ value }) => value) })}
        >
          {deviations.map(({ code, says: name }) => (
            <option key={code} value={code}>
              {name}
            </option>
          ))}
        </select>
      </Field>
      <Field label="Failures after, times those before, if it works as hoped">
        <input
          type="number"
          min={0.1}
          max={0.95}
          step={0.05}
          value={draft.expectedRatio}
          onChange={({ target }) => onEdit({ expectedRatio: Number(target.value) })}
        />
      </Field>
      <p role="status">{says}</p>
      {text('What will count as success', 'success')}
      {text('What will end it early', 'stop')}
    </>
  );
}

const Field = ({ label, children }: { readonly label: string; readonly children: ReactNode }) => (
  <label className="stacked">
    {label}
    {children}
  </label>
);
