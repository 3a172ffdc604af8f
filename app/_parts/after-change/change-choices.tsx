'use client';

import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { AccountChooser, CountedChooser } from '../asked/asked-choosers.tsx';
import { Chooser } from '../scope/chooser.tsx';
import { ShopTicks } from './shop-ticks.tsx';
import { shopsOf } from './shops-of.ts';

/** When and where it was changed, and what counts, as a sentence; the address holds every word of it. */
export function ChangeChoices() {
  const { view, change } = useView();
  const { open } = useRecordSet();
  return (
    <div className="asked">
      Fitted another way from{' '}
      <Chooser label="Day of the change" word={view.change ?? 'a day to be given'}>
        <fieldset className="choices">
          <legend>The first day of the new way</legend>
          <label className="stacked">
            day
            <input
              type="date"
              value={view.change ?? ''}
              onChange={({ target }) => change({ change: target.value === '' ? null : target.value })}
            />
          </label>
        </fieldset>
      </Chooser>{' '}
      on at{' '}
      <Chooser
        label="Shops that changed"
        word={view.changedShops.length === 0 ? 'shops to be named' : view.changedShops.join(', ')}
      >
        <ShopTicks
          {...{ shops: shopsOf(open), ticked: view.changedShops }}
          onTick={(changedShops) => change({ changedShops })}
        />
      </Chooser>
      ; counted are <CountedChooser view={view} onChoose={change} />, <AccountChooser view={view} onChoose={change} />.
    </div>
  );
}
