'use client';

import {
  drawBefallen,
  drawFoundAndBegun,
  drawLookedAlone,
  drawLooking,
  foundAndBegunSays,
  groupSays,
} from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { useView } from '../../_state/use-view.ts';
import { PartChooser } from '../asked/asked-choosers.tsx';
import { FindingPage } from '../finding/finding-page.tsx';
import { Aspect, FurtherFigure } from '../finding/further-figure.tsx';

function DetectionChoices() {
  const { view, change } = useView();
  return (
    <div className="asked">
      Counted are <PartChooser view={view} onChoose={change} />.
    </div>
  );
}

interface Props {
  readonly finding: Finding;
  readonly units: UnitSystem;
}

const has = ({ groups }: Finding, name: string): boolean =>
  groups.some(({ estimates }) => estimates[name] !== undefined);

function FoundAndBegun({ finding, units }: Props) {
  if (!finding.series.some(({ name }) => name === 'found')) return null;
  return (
    <Aspect id="both" title="Life by finding and by beginning">
      <FurtherFigure {...{ finding, units, height: 400, draw: drawFoundAndBegun, says: foundAndBegunSays }} />
    </Aspect>
  );
}

function HowLooked({ finding, units }: Props) {
  if (!has(finding, 'checksMade')) return null;
  const noted = finding.groups.filter(({ notes = [] }) => notes.length > 0);
  return (
    <Aspect id="looked" title="How closely each is looked at">
      <FurtherFigure
        {...{ finding, units, height: 300, draw: drawLooking }}
        says="Checks that say dry or leaking over what was watched, and the chance that one check sees a leak that is there, from the record of checks; with limits."
      />
      <FurtherFigure
        {...{ finding, units, height: 300, draw: drawLookedAlone }}
        says="What was found by the horizon, with limits, and what would be found had leaks begun alike everywhere and each been looked at as it is: where the two move together, the looking may be all there is to it. The latter has no limits."
      />
      <dl className="notes-by-group">
        {noted.map(({ label, by, notes = [] }) => (
          <div key={label}>
            <dt>{groupSays(by)}</dt>
            {notes.map((note) => (
              <dd key={note}>{note}</dd>
            ))}
          </div>
        ))}
      </dl>
    </Aspect>
  );
}

function Befallen({ finding, units }: Props) {
  if (!has(finding, 'bearingFailureByHorizon')) return null;
  return (
    <Aspect id="befallen" title="Leaks, soaked linings and failed bearings together">
      <p>
        Fewer leaks are not fewer failures where bearings or linings pay for them: what first befell the wheel end, each
        outcome ruling out the others, at today’s renewals.
      </p>
      <FurtherFigure
        {...{ finding, units, height: 400, draw: drawBefallen }}
        says="Share of lives to which each outcome came first by the horizon, with limits that allow for vehicles; the other outcomes and renewals compete."
      />
    </Aspect>
  );
}

/** Are leaks found late? Found against begun, how each is looked at, and what competes. */
export const DetectionPage = () => (
  <FindingPage
    question="detection"
    choices={<DetectionChoices />}
    above={(finding, units) => (
      <>
        <FoundAndBegun {...{ finding, units }} />
        <HowLooked {...{ finding, units }} />
        <Befallen {...{ finding, units }} />
      </>
    )}
    beneath={() => (
      <Aspect id="claims" title="What this page says, and what it does not">
        <p>
          It says how much later leaks are found than they can have begun, and how far the looking alone would set
          groups apart. It does not say when any one leak began. A dry check in grease is weaker evidence than one in
          oil. A leak that nobody saw is no sound wheel end, and nothing here clears one for service.
        </p>
      </Aspect>
    )}
  />
);
