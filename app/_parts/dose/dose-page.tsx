'use client';

import { drawStretchRates, drawStretchRatios } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import { measuredBehind, measuredQuantities, measuredWords, type MeasuredQuantity } from '../../../shared/measured.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { useView } from '../../_state/use-view.ts';
import { AccountChooser, CountedChooser } from '../asked/asked-choosers.tsx';
import { FindingPage } from '../finding/finding-page.tsx';
import { Aspect, FurtherFigure } from '../finding/further-figure.tsx';
import { OnwardLink } from '../finding/onward-link.tsx';
import { Chooser } from '../scope/chooser.tsx';

/** The deviation by which the address names a measured value. */
const named: Readonly<Record<MeasuredQuantity, string>> = {
  'inner-torque': 'inner-torque-out',
  'outer-torque': 'outer-torque-out',
  'end-play': 'end-play-high',
};
const mostTold = 'the value that most failures tell';

function DoseChoices() {
  const { view, change } = useView();
  const now = view.deviation === null ? undefined : measuredBehind[view.deviation];
  return (
    <div className="asked">
      Looked at is{' '}
      <Chooser label="Measured value" word={now === undefined ? mostTold : `the ${measuredWords[now]}`}>
        <fieldset className="choices">
          <legend>Measured value</legend>
          <label>
            <input
              type="radio"
              name="measured"
              checked={now === undefined}
              onChange={() => change({ deviation: null })}
            />{' '}
            {mostTold}
          </label>
          {measuredQuantities.map((quantity) => (
            <label key={quantity}>
              <input
                type="radio"
                name="measured"
                checked={now === quantity}
                onChange={() => change({ deviation: named[quantity] })}
              />{' '}
              {measuredWords[quantity]}
            </label>
          ))}
        </fieldset>
      </Chooser>
      ; counted are <CountedChooser view={view} onChoose={change} />, <AccountChooser view={view} onChoose={change} />.
    </div>
  );
}

function Stretches({ finding, units }: { finding: Finding; units: UnitSystem }) {
  return (
    <Aspect id="stretches" title="Stretch by stretch">
      <FurtherFigure
        {...{ finding, units, height: 300, draw: drawStretchRates }}
        says="Failures over what was watched, with limits. The window is cut into thirds; what lies half a window and more beyond it stands apart."
      />
      <FurtherFigure
        {...{ finding, units, height: 300, draw: drawStretchRatios }}
        says="Times the hazard of the middle third of the window, what else is known taken into account, with limits."
      />
    </Aspect>
  );
}

/** How much does the measured value matter? The hazard over it, its window, what was written down. */
export const DosePage = () => (
  <FindingPage
    question="dose"
    choices={<DoseChoices />}
    above={(finding, units) => <Stretches {...{ finding, units }} />}
    beneath={() => (
      <>
        <OnwardLink question="causes" part={{}}>
          Set against the other deviations: which go with shorter life?
        </OnwardLink>
        <Aspect id="claims" title="What this page says, and what it does not">
          <p>
            It says how often lives failed by what the installing job wrote down. What was written down is what the
            wheel end had only where it was read off the tool: values rounded to the middle of the window hide the rest.
            Nothing here is a torque or an end play to work to: the component maker’s instruction is, and nothing here
            clears a wheel end for service.
          </p>
        </Aspect>
      </>
    )}
  />
);
