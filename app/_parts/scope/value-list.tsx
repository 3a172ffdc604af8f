import { columnSays, valueSays } from '../../../lib/charts/index.ts';
import type { ColumnChoices } from '../../_state/opened-records.ts';

interface Props {
  readonly column: string;
  readonly any: string;
  readonly choices: ColumnChoices | undefined;
  readonly chosen: readonly string[] | undefined;
  readonly onChoose: (values: readonly string[] | undefined) => void;
}

/** The values of one column to keep; none ticked keeps all. */
export function ValueList({ column, any, choices, chosen = [], onChoose }: Props) {
  const offered = choices?.values ?? [];
  const missing = chosen.filter((value) => !offered.some((choice) => choice.value === value));
  const all = [...offered, ...missing.map((value) => ({ value, lives: 0 }))];
  const toggle = (value: string) => {
    const next = chosen.includes(value) ? chosen.filter((other) => other !== value) : [...chosen, value];
    onChoose(next.length === 0 || next.length === all.length ? undefined : next);
  };
  return (
    <fieldset className="choices">
      <legend>{columnSays(column)}</legend>
      <label>
        <input type="checkbox" checked={chosen.length === 0} onChange={() => onChoose(undefined)} />
        {any}
      </label>
      {all.map(({ value, lives }) => (
        <label key={value}>
          <input type="checkbox" checked={chosen.includes(value)} onChange={() => toggle(value)} />
          {valueSays(column, value)}
          <span className="quiet count">{lives.toLocaleString('en-US')}</span>
        </label>
      ))}
    </fieldset>
  );
}
