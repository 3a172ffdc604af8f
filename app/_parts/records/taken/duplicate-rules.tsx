import { duplicateRules, type Choices, type DuplicateRule } from '../../../../shared/choices.ts';
import type { RebuildAccount } from '../../../_state/lives-desk.ts';

interface Props {
  readonly found: RebuildAccount['duplicates'];
  readonly choices: Choices;
  readonly onEdit: (choices: Choices) => void;
}

const rules = Object.keys(duplicateRules) as DuplicateRule[];

/** Which rows count as said before, rule by rule: how many were set aside for it, and whether at all. */
export function DuplicateRules({ found, choices, onEdit }: Props) {
  const { duplicates } = choices;
  return (
    <div>
      <h3>Rows that say what another row said</h3>
      <table className="duplicate-rules">
        <caption>
          Each is kept once and the others are listed among the rows set aside; a rule that is off keeps them all, and
          the files are read again for it
        </caption>
        <thead>
          <tr>
            <th scope="col" className="text-cell">
              rule
            </th>
            <th scope="col">rows set aside</th>
          </tr>
        </thead>
        <tbody>
          {rules.map((rule) => (
            <tr key={rule}>
              <th scope="row" className="text-cell">
                <label>
                  <input
                    type="checkbox"
                    checked={duplicates[rule]}
                    onChange={({ target }) =>
                      onEdit({ ...choices, duplicates: { ...duplicates, [rule]: target.checked } })
                    }
                  />{' '}
                  {duplicateRules[rule]}
                </label>
              </th>
              <td>{found[rule].toLocaleString('en-US')}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
