import type { View } from '../../../shared/view.ts';
import { askedOutcomes, isAsked } from './asked-words.ts';

interface Props {
  readonly view: View;
  readonly onChoose: (part: Partial<View>) => void;
}

/** What counts as the end of a life. */
export function OutcomeChoice({ view, onChoose }: Props) {
  return (
    <fieldset className="choices">
      <legend>Counted are</legend>
      {askedOutcomes.map((one) => (
        <label key={one.says}>
          <input
            type="radio"
            name="outcome"
            checked={isAsked(view, one)}
            onChange={() => onChoose({ component: one.component, outcome: one.outcome, mode: null })}
          />{' '}
          {one.says}
        </label>
      ))}
    </fieldset>
  );
}
