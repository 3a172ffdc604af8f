'use client';

import { columnDrafts } from '../../_state/columns/column-drafts.ts';
import { answerOf, asksOf, missingColumns, type Draft } from '../../_state/columns/draft.ts';
import type { Ask } from '../../_state/columns-desk.ts';
import { MissingColumn } from './missing-column.tsx';

/** What the proposal could not settle, before anything else. */
export function Questions({ draft }: { draft: Draft }) {
  const asks = asksOf(draft);
  const missing = missingColumns(draft);
  const open = asks.filter((ask) => answerOf(draft, ask) === undefined).length + missing.length;
  if (asks.length + missing.length === 0) return null;
  return (
    <section className="questions" aria-labelledby="asked" data-open={open}>
      <h3 id="asked">
        {open === 0 ? 'Asked and answered' : `To be said first: ${open} ${open === 1 ? 'question' : 'questions'}`}
      </h3>
      <ol>
        {missing.map(({ table, ours }) => (
          <li key={`${table} ${ours}`} className="open">
            <MissingColumn {...{ draft, table, ours }} />
          </li>
        ))}
        {asks.map((ask) => (
          <li key={ask.id} className={answerOf(draft, ask) === undefined ? 'open' : undefined}>
            <Question {...{ draft, ask }} />
          </li>
        ))}
      </ol>
    </section>
  );
}

function Question({ draft, ask }: { draft: Draft; ask: Ask }) {
  const { number } = draft.source;
  const chosen = answerOf(draft, ask);
  return (
    <fieldset data-ask={ask.id}>
      <legend>{ask.question}</legend>
      {ask.options.map(({ label }, option) => (
        <label key={label}>
          <input
            type="radio"
            name={`${number} ${ask.id}`}
            checked={chosen === option}
            onChange={() => columnDrafts.answer(number, ask, option)}
          />
          {label}
        </label>
      ))}
    </fieldset>
  );
}
