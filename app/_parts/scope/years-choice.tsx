import type { View } from '../../../shared/view.ts';
import type { ScopeChoices } from '../../_state/opened-records.ts';

interface Props {
  readonly view: View;
  readonly choices: ScopeChoices | undefined;
  readonly onChoose: (part: Pick<View, 'installedFrom' | 'installedTo'>) => void;
}

/** The years of installation to keep; open at either end. */
export function YearsChoice({ view, choices, onChoose }: Props) {
  const { firstYear, lastYear } = choices ?? { firstYear: null, lastYear: null };
  const count = firstYear === null || lastYear === null ? 0 : lastYear - firstYear + 1;
  const years = Array.from({ length: count }, (_, index) => String((firstYear ?? 0) + index));
  const { installedFrom, installedTo } = view;
  const select = (label: string, value: string | null, open: string, choose: (year: string) => void) => (
    <label className="stacked">
      {label}
      <select value={value?.slice(0, 4) ?? ''} onChange={(event) => choose(event.target.value)}>
        <option value="">{open}</option>
        {years.map((year) => (
          <option key={year}>{year}</option>
        ))}
      </select>
    </label>
  );
  return (
    <fieldset className="choices">
      <legend>Installed</legend>
      {select('from', installedFrom, 'any year', (year) =>
        onChoose({ installedFrom: year === '' ? null : `${year}-01-01`, installedTo }),
      )}
      {select('to', installedTo, 'any year', (year) =>
        onChoose({ installedFrom, installedTo: year === '' ? null : `${year}-12-31` }),
      )}
      <p className="quiet">
        Lives that had already begun when the records start carry the date of their unit, or none: a year leaves the
        undated out.
      </p>
    </fieldset>
  );
}
