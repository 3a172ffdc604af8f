import { useId } from 'react';
import type { Choices, SourceWindow } from '../../../../shared/choices.ts';
import type { ReadReport } from '../../../../shared/record-set.ts';
import type { RebuildAccount } from '../../../_state/lives-desk.ts';
import { windowSays } from './taken-words.ts';

interface Props {
  readonly account: RebuildAccount;
  readonly report: ReadReport;
  readonly choices: Choices;
  readonly onEdit: (choices: Choices) => void;
}

/** Between which days failures would have been written down: of all records, and of each source that differs. */
export function Windows({ account, report, choices, onEdit }: Props) {
  const { window: whole, windows } = choices;
  const declared = [whole.from ?? report.observedFrom, whole.to ?? report.observedTo].every((day) => day !== null);
  const of = (shop: string) => windows.find((window) => window.shop === shop);
  const edit = (shop: string, part: Partial<Pick<SourceWindow, 'from' | 'to'>>) => {
    const changed = { from: null, to: null, ...of(shop), ...part, shop };
    const others = windows.filter((window) => window.shop !== shop);
    const kept = changed.from !== null || changed.to !== null ? [changed] : [];
    onEdit({ ...choices, windows: [...others, ...kept] });
  };
  const byFile = windows.filter(({ files }) => files !== undefined);
  return (
    <div className="windows" data-declared={declared}>
      <h3>Between which days would a failure have been written down?</h3>
      <p className={declared ? undefined : 'notice'}>
        {windowSays(account, declared)}{' '}
        {!declared &&
          'A time in which failures were not yet written down, or no longer, makes lives look longer than they are: say it here, for all records or for a shop whose records begin or end otherwise.'}
      </p>
      <div className="wide" role="region" aria-label="Windows, scrolls sideways" tabIndex={0}>
        <table>
          <caption>
            A blank end is left as the records say: the declared one, else the first or last date of an event
          </caption>
          <thead>
            <tr>
              {['recorded by', 'vehicles', 'events', 'first event', 'last event', 'watched from', 'watched to'].map(
                (head, column) => (
                  <th key={head} scope="col" className={column === 1 || column === 2 ? undefined : 'text-cell'}>
                    {head}
                  </th>
                ),
              )}
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row" className="text-cell">
                all records
              </th>
              <td />
              <td />
              <td className="text-cell">{account.observedFrom ?? '—'}</td>
              <td className="text-cell">{account.observedTo ?? '—'}</td>
              <Ends
                label="all records"
                {...whole}
                onChange={(part) => onEdit({ ...choices, window: { ...whole, ...part } })}
              />
            </tr>
            {account.shops.map(({ shop, units, events, firstDay, lastDay }) => (
              <tr key={shop}>
                <th scope="row" className="text-cell">
                  {shop}
                </th>
                <td>{units.toLocaleString('en-US')}</td>
                <td>{events.toLocaleString('en-US')}</td>
                <td className="text-cell">{firstDay ?? '—'}</td>
                <td className="text-cell">{lastDay ?? '—'}</td>
                <Ends
                  label={shop}
                  from={of(shop)?.from ?? null}
                  to={of(shop)?.to ?? null}
                  onChange={(part) => edit(shop, part)}
                />
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {byFile.map(({ files, from, to }) => (
        <p key={files} className="quiet">
          Files named {files}: {from ?? 'as the records say'} to {to ?? 'as the records say'}.{' '}
          <button
            type="button"
            className="word"
            onClick={() => onEdit({ ...choices, windows: windows.filter((window) => window.files !== files) })}
          >
            Take this window away
          </button>
        </p>
      ))}
    </div>
  );
}

interface EndsProps {
  readonly label: string;
  readonly from: string | null;
  readonly to: string | null;
  readonly onChange: (part: { readonly from?: string | null; readonly to?: string | null }) => void;
}

function Ends({ label, from, to, onChange }: EndsProps) {
  const id = useId();
  const field = (end: 'from' | 'to', value: string | null) => (
    <td className="text-cell">
      <input
        type="date"
        id={`${id}-${end}`}
        aria-label={`${label}, watched ${end}`}
        value={value ?? ''}
        onChange={({ target }) => onChange({ [end]: target.value === '' ? null : target.value })}
      />
    </td>
  );
  return (
    <>
      {field('from', from)}
      {field('to', to)}
    </>
  );
}
