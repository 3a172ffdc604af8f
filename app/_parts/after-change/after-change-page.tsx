'use client';

import { drawRunningSum, runningSumSays } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import { QuestionFigure } from '../figure/question-figure.tsx';
import { FindingPage } from '../finding/finding-page.tsx';
import { ChangeChoices } from './change-choices.tsx';
import { ChangeTables } from './change-tables.tsx';
import { KeptChanges } from './kept-changes.tsx';
import { SayWhenAndWhere } from './say-when-and-where.tsx';
import { WriteChange } from './write-change.tsx';

const still = (): void => undefined;

/** Did the change work? Against before, against other shops, the running sum, what must not get worse, and the form. */
export function AfterChangePage() {
  return (
    <FindingPage
      question="after-change"
      choices={<ChangeChoices />}
      instead={(finding) =>
        finding.change === undefined ? (
          <>
            <SayWhenAndWhere finding={finding} />
            <Written finding={finding} />
          </>
        ) : null
      }
      above={(finding, units) =>
        finding.series.some(({ name }) => name === 'running sum') && (
          <section className="aspect" aria-labelledby="running-sum">
            <h2 id="running-sum">Month by month since the change</h2>
            <figure>
              <QuestionFigure
                {...{ finding, units, height: 260, draw: drawRunningSum, says: runningSumSays(finding) }}
                onNarrow={still}
              />
              <figcaption>{runningSumSays(finding)}</figcaption>
            </figure>
          </section>
        )
      }
      beneath={(finding) => (
        <>
          <ChangeTables finding={finding} />
          <Written finding={finding} />
          <section className="aspect" aria-labelledby="claims">
            <h2 id="claims">What this page says, and what it does not</h2>
            <p>
              It says whether what was fitted after a day fails less than what the same shops fitted before, at like
              ages and work, and less than at other shops over the same time. It does not say that the change is why:
              something else may have changed on that day. One shop is one trial. Nothing here clears a wheel end for
              service, and a change that safety asks for waits for no number.
            </p>
          </section>
        </>
      )}
    />
  );
}

const Written = ({ finding }: { readonly finding: Finding }) => (
  <>
    <KeptChanges />
    <WriteChange key={JSON.stringify([finding.settings.change, finding.settings.changedShops])} finding={finding} />
  </>
);
