'use client';

import { ageSays, valueSays } from '../../../lib/charts/index.ts';
import { deviations } from '../../../shared/deviations.ts';
import { earlyOf } from '../../../shared/view.ts';
import { useView } from '../../_state/use-view.ts';
import { AccountChoice } from '../asked/account-choice.tsx';
import { accountSays, outcomeSays } from '../asked/asked-words.ts';
import { EarlyChoice } from '../asked/early-choice.tsx';
import { OutcomeChoice } from '../asked/outcome-choice.tsx';
import { Chooser } from '../scope/chooser.tsx';

/** What the ranking is asked for, as a sentence; the address holds every word of it. */
export function CausesChoices() {
  const { view, units, change } = useView();
  const looked = view.deviation === null ? 'none' : valueSays('deviation', view.deviation);
  return (
    <div className="asked">
      Counted are{' '}
      <Chooser label="What counts" word={outcomeSays(view)}>
        <OutcomeChoice view={view} onChoose={change} />
      </Chooser>
      , early up to{' '}
      <Chooser label="Early" word={ageSays(earlyOf(view), view.axis, units)}>
        <EarlyChoice key={view.axis} {...{ view, units }} onChoose={change} />
      </Chooser>
      , with{' '}
      <Chooser label="Taken into account" word={accountSays(view)}>
        <AccountChoice view={view} onChoose={change} />
      </Chooser>{' '}
      taken into account. Looked into:{' '}
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
