'use client';

import { ageSays, valueSays } from '../../../lib/charts/index.ts';
import { deviations } from '../../../shared/deviations.ts';
import { earlyOf } from '../../../shared/view.ts';
import { useView } from '../../_state/use-view.ts';
import { AccountChooser, CountedChooser } from '../asked/asked-choosers.tsx';
import { EarlyChoice } from '../asked/early-choice.tsx';
import { Chooser } from '../scope/chooser.tsx';

/** What the ranking is asked for, as a sentence; the address holds every word of it. */
export function CausesChoices() {
  const { view, units, change } = useView();
  const looked = view.deviation === null ? 'none' : valueSays('deviation', view.deviation);
  return (
    <div className="asked">
      Counted are <CountedChooser view={view} onChoose={change} />, early up to{' '}
      <Chooser label="Early" word={ageSays(earlyOf(view), view.axis, units)}>
        <EarlyChoice key={view.axis} {...{ view, units }} onChoose={change} />
      </Chooser>
      , <AccountChooser view={view} onChoose={change} />. Looked into:{' '}
      <Chooser label="Deviation looked into" word={looked}>
        <fieldset className="choices">
          <legend>Look into</legend>
          <label>
            <input
              type="radio"
              name="deviation"
              checked={view.deviation === null}
              onChange={() => change({ deviation: null })}
            />{' '}
            none
          </label>
          {deviations.map(({ code, says }) => (
            <label key={code}>
              <input
                type="radio"
                name="deviation"
                checked={view.deviation === code}
                onChange={() => change({ deviation: code })}
              />{' '}
              {says}
            </label>
          ))}
        </fieldset>
      </Chooser>
      .
    </div>
  );
}
