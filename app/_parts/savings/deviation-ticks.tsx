import { deviations } from '../../../shared/deviations.ts';
import type { View } from '../../../shared/view.ts';

interface Props {
  readonly view: View;
  readonly onChoose: (part: Partial<View>) => void;
}

/** Deviations that would get rarer. */
export const DeviationTicks = ({ view: { saving }, onChoose }: Props) => (
  <fieldset className="choices">
    <legend>Made rarer are (none ticked: those that surely go with more failures)</legend>
    {deviations.map(({ code, says }) => (
      <label key={code}>
        <input
          type="checkbox"
          checked={saving.includes(code)}
          onChange={({ target }) =>
            onChoose({ saving: target.checked ? [...saving, code] : saving.filter((own) => own !== code) })
          }
        />{' '}
        {says}
      </label>
    ))}
  </fieldset>
);
