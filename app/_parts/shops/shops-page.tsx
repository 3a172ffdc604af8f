'use client';

import { drawFunnel, funnelSays } from '../../../lib/charts/index.ts';
import { QuestionFigure } from '../figure/question-figure.tsx';
import { FindingPage } from '../finding/finding-page.tsx';
import { DeviationTable } from './deviation-table.tsx';
import { MixTables } from './mix-tables.tsx';
import { QuarterTrends } from './quarter-trends.tsx';
import { SevereRegister } from './severe-register.tsx';
import { ShopsChoices } from './shops-choices.tsx';

const still = (): void => undefined;

/** Is a shop really different? Ranking, funnel, mix, trend, what was recorded, severe events. */
export function ShopsPage() {
  return (
    <FindingPage
      question="shops"
      choices={<ShopsChoices />}
      above={(finding, units) =>
        finding.series.some(({ name }) => name === 'funnel') && (
          <section className="aspect" aria-labelledby="funnel">
            <h2 id="funnel">How far apart chance alone would have them</h2>
            <figure>
              <QuestionFigure
                {...{ finding, units, height: 340, draw: drawFunnel, says: funnelSays(finding) }}
                onNarrow={still}
              />
              <figcaption>{funnelSays(finding)}</figcaption>
            </figure>
          </section>
        )
      }
      beneath={(finding) => (
        <>
          <MixTables finding={finding} />
          <QuarterTrends finding={finding} />
          <DeviationTable finding={finding} />
          <SevereRegister finding={finding} />
          <section className="aspect" aria-labelledby="claims">
            <h2 id="claims">What this page says, and what it does not</h2>
            <p>
              It says whether the parts that a shop fitted fail more often than those of all shops on like work, how
              surely, and how much of that goes with deviations written down at installation. It does not say why, and
              it ranks no person: a shop’s vehicles, roads and loads differ in ways that nobody wrote down. A shop that
              writes little down shows few deviations. Nothing here clears a wheel end for service.
            </p>
          </section>
        </>
      )}
    />
  );
}
