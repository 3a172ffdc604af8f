import { columnSays } from '../../../lib/charts/index.ts';
import type { View } from '../../../shared/view.ts';
import { offeredColumns, toggledAccount, usualColumns } from './asked-words.ts';

interface Props {
  readonly view: View;
  readonly onChoose: (part: Partial<View>) => void;
}

/** What is taken into account before lives are set against each other. */
export function AccountChoice({ view, onChoose }: Props) {
  const now = view.adjust.length === 0 ? usualColumns : view.adjust;
  return (
    <fieldset className="choices">
      <legend>Taken into account</legend>
      {offeredColumns.map((column) => (
        <label key={column}>
          <input
            type="checkbox"
            checked={now.includes(column)}
            disabled={now.length === 1 && now.includes(column)}
            onChange={() => onChoose({ adjust: toggledAccount(view, column) })}
          />
          {columnSays(column)}
        </label>
      ))}
      {view.adjust.length > 0 && (
        <button type="button" className="word" onClick={() => onChoose({ adjust: [] })}>
          What usually is
        </button>
      )}
    </fieldset>
  );
}
