import { modeWords } from '../../../shared/mode-words.ts';
import { components, type Component } from '../../../shared/vocabulary.ts';
import type { View } from '../../../shared/view.ts';
import { ownFailure } from './asked-words.ts';

interface Props {
  readonly view: View;
  readonly onChoose: (part: Partial<View>) => void;
}

/** Which part's failures count, and of them which way of failing. */
export function PartChoice({ view, onChoose }: Props) {
  const modes: readonly string[] = components[view.component].modes;
  return (
    <fieldset className="choices">
      <legend>Counted are</legend>
      {(Object.keys(components) as Component[]).map((component) => (
        <label key={component}>
          <input
            type="radio"
            name="component"
            checked={view.component === component}
            onChange={() => onChoose({ component, outcome: 'component', mode: null })}
          />{' '}
          {ownFailure[component]}
        </label>
      ))}
      <label className="stacked">
        in which way
        <select
          value={view.mode !== null && modes.includes(view.mode) ? view.mode : ''}
          onChange={({ target }) => onChoose({ mode: target.value === '' ? null : (target.value as View['mode']) })}
        >
          <option value="">any</option>
          {components[view.component].modes.map((mode) => (
            <option key={mode} value={mode}>
              {modeWords[mode]}
            </option>
          ))}
        </select>
      </label>
    </fieldset>
  );
}
