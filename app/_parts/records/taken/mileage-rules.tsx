import { mileageRules, type Choices } from '../../../../shared/choices.ts';
import type { RebuildAccount } from '../../../_state/lives-desk.ts';

interface Props {
  readonly repairs: RebuildAccount['repairs'];
  readonly choices: Choices;
  readonly onEdit: (choices: Choices) => void;
}

/** What is done about miles that are missing or cannot be right, rule by rule: how often, and whether at all. */
export function MileageRules({ repairs, choices, onEdit }: Props) {
  const { mileage } = choices;
  return (
    <div>
      <h3>Miles that are missing, or cannot be right</h3>
      <table className="mileage-rules">
        <caption>
          A rule that is off changes nothing: a row whose miles it would have filled has none, and a reading it would
          have judged is used as written
        </caption>
        <thead>
          <tr>
            <th scope="col" className="text-cell">
              rule
            </th>
            <th scope="col">rows</th>
            <th scope="col">vehicles</th>
          </tr>
        </thead>
        <tbody>
          {repairs.map(({ rule, rows, units }) => (
            <tr key={rule}>
              <th scope="row" className="text-cell">
                <label>
                  <input
                    type="checkbox"
                    checked={mileage[rule]}
                    onChange={({ target }) => onEdit({ ...choices, mileage: { ...mileage, [rule]: target.checked } })}
                  />{' '}
                  {mileageRules[rule]}
                </label>
              </th>
              <td>{rows.toLocaleString('en-US')}</td>
              <td>{units.toLocaleString('en-US')}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
