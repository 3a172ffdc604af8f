'use client';

import { ageSays, columnSays } from '../../../lib/charts/index.ts';
import { deviations } from '../../../shared/deviations.ts';
import { displayUnit } from '../../../shared/units.ts';
import { useView } from '../../_state/use-view.ts';
import { FailureCosts } from '../asked/cost-choices.tsx';
import { NumberChoice } from '../asked/number-choice.tsx';
import { Chooser } from '../scope/chooser.tsx';

const offeredCuts = ['shop', 'position', 'role'];
const most = { miles: 1_000_000, months: 120 };

/** How far ahead, told apart by what, at what cost, and which deviation is in question; the address holds all of it. */
export function AheadChoices() {
  const { view, change } = useView();
  const [by = null] = view.by;
  return (
    <div className="asked">
      Ahead are <AheadWord />, told apart by{' '}
      <Chooser label="Told apart by" word={by === null ? 'nothing' : view.by.map(columnSays).join(' and ')}>
        <fieldset className="choices">
          <legend>Told apart by</legend>
          {[null, ...offeredCuts].map((column) => (
            <label key={column ?? 'nothing'}>
              <input
                type="radio"
                name="apart"
                checked={view.by.length < 2 && by === column}
                onChange={() => change({ by: column === null ? [] : [column] })}
              />{' '}
              {column === null ? 'nothing' : columnSays(column)}
            </label>
          ))}
        </fieldset>
      </Chooser>
      ; <FailureCosts />. To be cut open for: <DeviationWord />.
    </div>
  );
}

function AheadWord() {
  const { view, units, change } = useView();
  const { factor, symbol } = displayUnit('miles', units);
  const inMiles = view.ahead === 'miles';
  const says = inMiles ? ageSays(view.aheadMiles, 'miles', units) : ageSays(view.aheadMonths, 'months', units);
  return (
    <Chooser label="How far ahead" word={`the next ${says}`}>
      <NumberChoice
        label="Months, each vehicle at its own pace"
        value={view.aheadMonths}
        rule="Months above 0, at most 120."
        isUsable={(typed) => typed > 0 && typed <= most.months}
        act="So many months"
        onValue={(aheadMonths) => change({ ahead: 'months', aheadMonths })}
      />
      <NumberChoice
        label={`Distance, of every vehicle alike (${symbol})`}
        value={Math.round(view.aheadMiles * factor)}
        rule={`A distance above 0 and at most 1,000,000 mi.`}
        isUsable={(typed) => typed > 0 && typed / factor <= most.miles}
        act="So far"
        onValue={(typed) => change({ ahead: 'miles', aheadMiles: typed / factor })}
      />
    </Chooser>
  );
}

function DeviationWord() {
  const { view, change } = useView();
  const says =
    deviations.find(({ code }) => code === view.deviation)?.says ?? 'the deviation most often told both ways';
  return (
    <Chooser label="Deviation in question" word={says}>
      <label className="stacked choices">
        Deviation in question
        <select
          value={view.deviation ?? ''}
          onChange={(event) => change({ deviation: event.target.value === '' ? null : event.target.value })}
        >
          <option value="">the one most often told both ways</option>
          {deviations.map(({ code, says: name }) => (
            <option key={code} value={code}>
              {name}
            </option>
          ))}
        </select>
      </label>
    </Chooser>
  );
}
