'use client';

import { valueSays } from '../../../lib/charts/index.ts';
import { FindingPage } from '../finding/finding-page.tsx';
import { SavingsChoices } from './savings-choices.tsx';

/** What would fewer deviations save? Together and each alone, what each falls to, and what is assumed. */
export function SavingsPage() {
  return (
    <FindingPage
      question="savings"
      choices={<SavingsChoices />}
      beneath={({ groups }) => (
        <>
          <section className="aspect" aria-labelledby="each">
            <h2 id="each">Each by itself</h2>
            {groups
              .filter(({ notes = [] }) => notes.length > 0)
              .map(({ label, notes = [] }) => (
                <p key={label}>
                  <strong>{valueSays('deviation', label)}</strong>. {notes.join(' ')}
                </p>
              ))}
          </section>
          <section className="aspect" aria-labelledby="claims">
            <h2 id="claims">What this page says, and what it does not</h2>
            <p>
              It says how many failures fewer there would be if some deviations were as rare as asked, and if what goes
              with them went away with them. Whether it would is not known from records: a hurried job stays hurried.
              What is saved together is less than the sum of each, as one failure is saved once. Lives that no job in
              these records began are in no number here. Nothing here is a reason to leave a safety-critical deviation
              alone, and nothing clears a wheel end for service.
            </p>
          </section>
        </>
      )}
    />
  );
}
