import { duplicateRules, type Choices, type DuplicateRule } from '../../../../shared/choices.ts';
import type { RebuildAccount } from '../../../_state/lives-desk.ts';
import { RulesTable } from './rules-table.tsx';

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
    <RulesTable
      title="Rows that say what another row said"
      caption="Each is kept once and the others are listed among the rows set aside; a rule that is off keeps them all, and the files are read again for it"
      className="duplicate-rules"
      heads={['rows set aside']}
      rules={rules.map((name) => ({
        ...{ name, says: duplicateRules[name], on: duplicates[name], counts: [found[name]] },
      }))}
      onSwitch={(name, on) => onEdit({ ...choices, duplicates: { ...duplicates, [name]: on } })}
    />
  );
}
