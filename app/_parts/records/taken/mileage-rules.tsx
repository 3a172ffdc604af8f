import { mileageRules, type Choices } from '../../../../shared/choices.ts';
import type { RebuildAccount } from '../../../_state/lives-desk.ts';
import { RulesTable } from './rules-table.tsx';

interface Props {
  readonly repairs: RebuildAccount['repairs'];
  readonly choices: Choices;
  readonly onEdit: (choices: Choices) => void;
}

/** What is done about miles that are missing or cannot be right, rule by rule: how often, and whether at all. */
export function MileageRules({ repairs, choices, onEdit }: Props) {
  const { mileage } = choices;
  return (
    <RulesTable
      title="Miles that are missing, or cannot be right"
      caption="A rule that is off changes nothing: a row whose miles it would have filled has none, and a reading it would have judged is used as written"
      className="mileage-rules"
      heads={['rows', 'vehicles']}
      rules={repairs.map(({ rule, rows, units }) => ({
        ...{ name: rule, says: mileageRules[rule], on: mileage[rule], counts: [rows, units] },
      }))}
      onSwitch={(name, on) => onEdit({ ...choices, mileage: { ...mileage, [name]: on } })}
    />
  );
}
