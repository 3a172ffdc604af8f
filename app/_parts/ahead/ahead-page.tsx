'use client';

import { FindingPage } from '../finding/finding-page.tsx';
import { AheadChoices } from './ahead-choices.tsx';
import { LifeListTable } from './life-list-table.tsx';

/** What is coming? The forecast, where to look first, and what to cut open. */
export const AheadPage = () => (
  <FindingPage
    question="ahead"
    choices={<AheadChoices />}
    beneath={(finding) => (
      <>
        {finding.lists?.map((list) => (
          <LifeListTable key={list.name} {...{ finding, list }} />
        ))}
        <section className="aspect" aria-labelledby="assumed">
          <h2 id="assumed">What is assumed</h2>
          <ul>
            <li>
              Lives are fitted apart by axle role, and originals from replacements, where a kind has 30 failures; the
              rest together. Each running life is told from its age now and the miles its vehicle will run.
            </li>
            <li>
              The limits hold the error of the fit, chance, and what wheel ends of one vehicle share. They do not hold a
              change of work, of parts or of looking.
            </li>
            <li>
              Told are first failures of what runs now, had none been renewed; what is fitted ahead is not counted.
            </li>
            <li>The costs are yours to enter; those first shown are assumptions.</li>
          </ul>
        </section>
      </>
    )}
  />
);
