import { stateWords } from '../../../lib/charts/index.ts';
import type { LivesPick } from '../../../shared/lives-pick.ts';
import { lifeStates } from '../../../shared/vocabulary.ts';

interface Props {
  readonly ended: LivesPick['ended'];
  readonly onChoose: (ended: LivesPick['ended']) => void;
}

/** How the lives listed ended; none ticked lists all. */
export function EndedChoice({ ended, onChoose }: Props) {
  const toggle = (state: (typeof lifeStates)[number]) =>
    onChoose(
      ended.includes(state)
        ? ended.filter((other) => other !== state)
        : lifeStates.filter((other) => other === state || ended.includes(other)),
    );
  return (
    <fieldset className="choices">
      <legend>How they ended</legend>
      <label>
        <input type="checkbox" checked={ended.length === 0} onChange={() => onChoose([])} />
        in any way
      </label>
      {lifeStates.map((state) => (
        <label key={state}>
          <input type="checkbox" checked={ended.includes(state)} onChange={() => toggle(state)} />
          {stateWords[state]}
        </label>
      ))}
    </fieldset>
  );
}
