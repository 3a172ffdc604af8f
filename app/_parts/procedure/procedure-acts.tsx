'use client';

import { useState } from 'react';
import shipped from '../../../data/default-procedure.json' with { type: 'json' };
import { areProblems, proceduresFile, proceduresInFile, type FieldProblem } from '../../../shared/procedure-file.ts';
import { procedureSchema, type Procedure } from '../../../shared/procedure.ts';
import { saveFile } from '../finding/save-file.ts';
import { JsonFileButton } from '../frame/json-file-button.tsx';

interface Props {
  readonly procedures: readonly Procedure[];
  readonly savable: boolean;
  readonly onEdit: (procedures: readonly Procedure[]) => void;
}

/** The procedure as a file, from a file, and the one that ships. */
export function ProcedureActs({ procedures, savable, onEdit }: Props) {
  const [refused, setRefused] = useState<{ name: string; problems: readonly FieldProblem[] } | null>(null);
  const take = (file: File) => {
    void file.text().then((text) => {
      const checked = proceduresInFile(text);
      setRefused(areProblems(checked) ? { name: file.name, problems: checked } : null);
      if (!areProblems(checked)) onEdit(checked);
    });
  };
  return (
    <>
      <div className="acts" role="group" aria-label="Procedure files">
        <button
          type="button"
          className="word"
          disabled={!savable}
          onClick={() => saveFile(proceduresFile(procedures), 'procedure.json', 'application/json')}
        >
          Procedure (JSON)
        </button>
        <JsonFileButton
          {...{ act: 'Bring in a procedure…', label: 'Procedure file', kind: 'procedure' }}
          onFile={take}
        />
        <button type="button" className="word" onClick={() => onEdit([procedureSchema.parse(shipped)])}>
          Start again from common practice
        </button>
      </div>
      {refused !== null && (
        <div className="notice" role="alert" data-refused={refused.problems.length}>
          <p>{refused.name} was not taken. What is wrong with it:</p>
          <ul>
            {refused.problems.slice(0, 20).map(({ where, says }, place) => (
              <li key={place}>
                <b>{where}</b> {says}
              </li>
            ))}
          </ul>
          {refused.problems.length > 20 && <p>and {refused.problems.length - 20} more.</p>}
        </div>
      )}
    </>
  );
}
