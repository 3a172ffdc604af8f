'use client';

import {
  ageSays,
  drawLifeCurves,
  drawMeanFailures,
  meanFailuresOf,
  meanFailuresSays,
} from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { earlyOf } from '../../../shared/view.ts';
import { useView } from '../../_state/use-view.ts';
import { AccountChooser, PartChooser } from '../asked/asked-choosers.tsx';
import { EarlyChoice } from '../asked/early-choice.tsx';
import { FindingPage } from '../finding/finding-page.tsx';
import { Aspect, FurtherFigure } from '../finding/further-figure.tsx';
import { Chooser } from '../scope/chooser.tsx';

function RepeatsChoices() {
  const { view, units, change } = useView();
  return (
    <div className="asked">
      Counted are <PartChooser view={view} onChoose={change} />; a comeback is one within{' '}
      <Chooser label="Comeback window" word={ageSays(earlyOf(view), view.axis, units)}>
        <EarlyChoice key={view.axis} {...{ view, units }} onChoose={change} />
      </Chooser>
      ; compared <AccountChooser view={view} onChoose={change} />.
    </div>
  );
}

interface Props {
  readonly finding: Finding;
  readonly units: UnitSystem;
}

/** The two kinds that are held against each other stand first; the others are the same lives by their number. */
const compared = (finding: Finding): Finding => ({
  ...finding,
  groups: finding.groups
    .filter(({ label }) => label.startsWith('after '))
    .map((group) => ({ ...group, by: { lives: group.label.replace(' without a failure', '') } })),
});

function Curves({ finding, units }: Props) {
  const told = compared(finding);
  if (!finding.series.some(({ name, group }) => name === 'curve' && group.startsWith('after '))) return null;
  return (
    <Aspect id="curves" title="How soon they fail again">
      <FurtherFigure
        {...{ finding: told, units, height: 360, draw: drawLifeCurves }}
        says="Share not yet failed since installation, of lives that follow a failure at the same wheel end and of those that follow a renewal without one, had none been renewed; with limits."
      />
    </Aspect>
  );
}

function MeanFailures({ finding, units }: Props) {
  if (meanFailuresOf(finding).length < 2) return null;
  return (
    <Aspect id="mean" title="Failures of a wheel end, one after another">
      <FurtherFigure {...{ finding, units, height: 320, draw: drawMeanFailures, says: meanFailuresSays }} />
    </Aspect>
  );
}

/** Do repaired wheel ends fail again? Comebacks, lives by what went before, mean failures a wheel end. */
export const RepeatsPage = () => (
  <FindingPage
    question="repeats"
    choices={<RepeatsChoices />}
    above={(finding, units) => (
      <>
        <Curves {...{ finding, units }} />
        <MeanFailures {...{ finding, units }} />
      </>
    )}
    beneath={() => (
      <Aspect id="claims" title="What this page says, and what it does not">
        <p>
          It says how soon parts fail that were fitted after a failure, against those fitted when nothing had failed. It
          does not say that a repair was badly done: a wheel end that failed once may be worked harder or worn where
          nobody looked. It is about wheel ends, never about who repaired them.
        </p>
      </Aspect>
    )}
  />
);
