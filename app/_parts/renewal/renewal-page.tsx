'use client';

import { ageSays } from '../../../lib/charts/index.ts';
import { useView } from '../../_state/use-view.ts';
import { CostWord, FailureCosts } from '../asked/cost-choices.tsx';
import { EarlyChoice } from '../asked/early-choice.tsx';
import { FindingPage } from '../finding/finding-page.tsx';
import { Chooser } from '../scope/chooser.tsx';

/** When does planned renewal pay? Its costs entered above, what it rests on beneath. */
export const RenewalPage = () => (
  <FindingPage
    question="renewal"
    choices={<RenewalChoices />}
    beneath={() => (
      <section className="aspect" aria-labelledby="assumed">
        <h2 id="assumed">What is assumed</h2>
        <ul>
          <li>
            The costs are yours to enter, in any one unit of money; those first shown are assumptions, with a planned
            renewal taken as 100. How many failures soak the lining or are road calls is read from the records.
          </li>
          <li>
            A part is renewed at so many miles, or at its failure where that comes first, over and over, and each
            renewal has the life that replacements have had in these records; parts a vehicle came with are left out.
          </li>
          <li>
            No miles are named unless the interval of the saving over running to failure excludes zero, and never beyond
            what was watched.
          </li>
          <li>
            Planned renewal is about cost. Some parts fail before the miles named, whatever they are: they clear none
            and put off no inspection, and the maker’s own interval governs.
          </li>
        </ul>
      </section>
    )}
  />
);

function RenewalChoices() {
  const { view, units, change } = useView();
  const inMiles = { ...view, axis: 'miles' } as const;
  return (
    <div className="asked">
      A planned renewal costs <CostWord name="plannedCost" />, <FailureCosts />; early is up to{' '}
      <Chooser label="Early" word={ageSays(view.earlyMiles, 'miles', units)}>
        <EarlyChoice view={inMiles} units={units} onChoose={change} />
      </Chooser>
      .
    </div>
  );
}
