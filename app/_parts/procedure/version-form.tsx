'use client';

import type { FieldProblem } from '../../../shared/procedure-file.ts';
import type { Procedure } from '../../../shared/procedure.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { setApart, withPart, withVersion } from './edit-procedures.ts';
import { PartForm } from './part-form.tsx';

interface Props {
  readonly procedures: readonly Procedure[];
  readonly at: number;
  readonly units: UnitSystem;
  readonly problems: readonly FieldProblem[];
  readonly onEdit: (procedures: readonly Procedure[]) => void;
}

/** One version: what it is called, from when it holds, and what it asks of every hub build and axle. */
export function VersionForm({ procedures, at, units, problems, onEdit }: Props) {
  const procedure = procedures[at];
  if (procedure === undefined) return null;
  const problem = (path: string) => problems.find((candidate) => candidate.path.join('.') === `${at}.${path}`)?.says;
  const change = (part: Partial<Procedure>) => onEdit(withVersion(procedures, at, part));
  const text = (field: 'name' | 'version', label: string) => (
    <label className="source-field">
      <span>{label}</span>
      <input
        value={procedure[field]}
        aria-invalid={problem(field) !== undefined}
        onChange={({ target }) => change({ [field]: target.value })}
      />
      {problem(field) !== undefined && <span className="field-problem">{problem(field)}</span>}
    </label>
  );
  return (
    <div className="version-form" data-version={at}>
      <div className="limits">
        {text('name', 'Name')}
        {text('version', 'Version')}
        <label className="source-field">
          <span>Valid from</span>
          <input
            type="date"
            value={procedure.validFrom}
            aria-invalid={problem('validFrom') !== undefined}
            onChange={({ target }) => change({ validFrom: target.value })}
          />
          {problem('validFrom') !== undefined && <span className="field-problem">{problem('validFrom')}</span>}
        </label>
      </div>
      <label className="long-field">
        Note
        <textarea rows={2} value={procedure.note} onChange={({ target }) => change({ note: target.value })} />
      </label>
      {procedure.parts.map((part, place) => (
        <PartForm
          key={place}
          {...{ part, units, first: place === 0 }}
          problem={(path) => problem(`parts.${place}.${path}`)}
          onChange={(changed) => onEdit(withPart(procedures, at, place, changed))}
          onSetApart={(role) => change({ parts: setApart(procedure, place, role) })}
        />
      ))}
    </div>
  );
}
