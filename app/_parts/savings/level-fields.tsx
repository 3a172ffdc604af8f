import { valueSays } from '../../../lib/charts/index.ts';
import type { View } from '../../../shared/view.ts';
import { perCent } from './saving-words.ts';

interface Props {
  readonly view: View;
  readonly onChoose: (part: Partial<View>) => void;
}

/** A share of jobs for each deviation made rarer; blank is what all of them fall to. */
export function LevelFields({ view: { saving, savingLevels }, onChoose }: Props) {
  const take = (code: string, text: string) => {
    const others = Object.fromEntries(Object.entries(savingLevels).filter(([own]) => own !== code));
    const share = Number(text) / 100;
    const usable = text.trim() !== '' && share >= 0 && share <= 1;
    onChoose({ savingLevels: usable ? { ...others, [code]: share } : others });
  };
  return (
    <fieldset className="choices">
      <legend>Per cent of jobs that each falls to; blank: as all of them</legend>
      {saving.map((code) => {
        const share = savingLevels[code];
        return (
          <label key={code} className="stacked">
            {valueSays('deviation', code)}
            <input
              type="number"
              min={0}
              max={100}
              step="any"
              defaultValue={share === undefined ? '' : perCent(share)}
              onBlur={({ target }) => take(code, target.value)}
            />
          </label>
        );
      })}
    </fieldset>
  );
}
