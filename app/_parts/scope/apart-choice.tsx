import { columnSays } from '../../../lib/charts/index.ts';
import type { ScopeChoices } from '../../_state/opened-records.ts';

const attributes = [
  ['Where it sits', ['role', 'axle', 'side', 'position', 'duty', 'unit_id']],
  ['What was fitted', ['lubricant', 'hub_build', 'hub_material', 'seal_lot', 'install_kind']],
  ['Whose work, and when', ['shop', 'site', 'technician_key', 'install_year']],
  ['What came before', ['life_number', 'prior_failures', 'mileage_quality']],
] as const;

interface Props {
  readonly by: readonly string[];
  readonly none: string;
  readonly choices: ScopeChoices | undefined;
  readonly onChoose: (by: string[]) => void;
}

function Options({ choices, without }: { choices: ScopeChoices | undefined; without: string | undefined }) {
  const recorded = choices?.deviations.filter(({ yes, no }) => yes + no > 0) ?? [];
  const values = (column: string) => choices?.columns.find((offered) => offered.column === column)?.values.length ?? 0;
  return (
    <>
      {attributes.map(([group, columns]) => (
        <optgroup key={group} label={group}>
          {columns
            .filter((column) => column !== without && values(column) > 0)
            .map((column) => (
              <option key={column} value={column}>
                {columnSays(column)}
              </option>
            ))}
        </optgroup>
      ))}
      <optgroup label="Deviation at installation (lives with it)">
        {recorded
          .filter(({ column }) => column !== without)
          .map(({ column, yes }) => (
            <option key={column} value={column}>
              {columnSays(column)} ({yes.toLocaleString('en-US')})
            </option>
          ))}
      </optgroup>
    </>
  );
}

/** One or two columns by which the lives are told apart. */
export function ApartChoice({ by, none, choices, onChoose }: Props) {
  const [first, second] = by;
  const pick = (columns: readonly (string | undefined)[]) =>
    onChoose(columns.filter((column) => column !== undefined && column !== '') as string[]);
  return (
    <fieldset className="choices">
      <legend>Told apart by</legend>
      <label className="stacked">
        first
        <select
          value={first ?? ''}
          onChange={(event) => pick([event.target.value, event.target.value === '' ? undefined : second])}
        >
          <option value="">{none}</option>
          <Options choices={choices} without={second} />
        </select>
      </label>
      <label className="stacked">
        and then
        <select
          value={second ?? ''}
          disabled={first === undefined}
          onChange={(event) => pick([first, event.target.value])}
        >
          <option value="">nothing more</option>
          <Options choices={choices} without={first} />
        </select>
      </label>
    </fieldset>
  );
}
