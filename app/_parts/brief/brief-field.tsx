'use client';

import { useId } from 'react';
import type { WordingWarning } from '../../../lib/brief/wording-checks.ts';
import type { BriefField as Field } from '../../../shared/brief-sections.ts';

interface Props extends Field {
  readonly text: string;
  readonly warnings: readonly WordingWarning[];
  readonly onText: (text: string) => void;
}

const mostSigns = 20_000;

/** One thing the engineer writes, with what in it says more than records can. */
export function BriefField({ name, label, hint, short = false, text, warnings, onText }: Props) {
  const id = useId();
  const about = `${id}-about`;
  const shared = {
    id,
    'data-field': name,
    value: text,
    placeholder: hint,
    maxLength: short ? 300 : mostSigns,
    'aria-describedby': about,
  };
  return (
    <div className={short ? 'brief-field short' : 'brief-field'}>
      <label htmlFor={id}>{label}</label>
      {short ? (
        <input type="text" {...shared} onChange={({ target }) => onText(target.value)} />
      ) : (
        <textarea rows={2} {...shared} onChange={({ target }) => onText(target.value)} />
      )}
      <div id={about} role="status">
        <WordingList warnings={warnings} />
      </div>
    </div>
  );
}

/** Each wording with what to write instead. */
export function WordingList({ warnings }: { warnings: readonly WordingWarning[] }) {
  return (
    <ul className="wordings">
      {warnings.map(({ found, instead }) => (
        <li key={found}>
          “<b>{found}</b>”: {instead}
        </li>
      ))}
    </ul>
  );
}
