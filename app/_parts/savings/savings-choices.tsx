'use client';

import { ageSays } from '../../../lib/charts/index.ts';
import { horizonOf } from '../../../shared/view.ts';
import { useView } from '../../_state/use-view.ts';
import { AccountChooser, CountedChooser } from '../asked/asked-choosers.tsx';
import { FailureCosts } from '../asked/cost-choices.tsx';
import { Chooser } from '../scope/chooser.tsx';
import { DeviationTicks } from './deviation-ticks.tsx';
import { LevelFields } from './level-fields.tsx';
import { levelsSay, savingSays } from './saving-words.ts';

/** Which deviations would get rarer, and how rare, as a sentence; the address holds every word of it. */
export function SavingsChoices() {
  const { view, units, change } = useView();
  const { saving, savingTo } = view;
  return (
    <div className="asked">
      Made rarer are{' '}
      <Chooser label="Deviations made rarer" word={savingSays(view)}>
        <DeviationTicks view={view} onChoose={change} />
      </Chooser>
      , down to{' '}
      <Chooser label="Fallen to" word={savingTo === 'zero' ? 'none at all' : 'the share at the best shop'}>
        <fieldset className="choices">
          <legend>Each falls to</legend>
          {(['best-shop', 'zero'] as const).map((to) => (
            <label key={to}>
              <input
                type="radio"
                name="saving-to"
                checked={savingTo === to}
                onChange={() => change({ savingTo: to })}
              />{' '}
              {to === 'zero' ? 'none at all' : 'the share at the shop where it is lowest'}
            </label>
          ))}
        </fieldset>
      </Chooser>
      {saving.length > 0 && (
        <>
          {' ('}
          <Chooser label="Levels of their own" word={levelsSay(view)}>
            <LevelFields view={view} onChoose={change} />
          </Chooser>
          )
        </>
      )}
      , by {ageSays(horizonOf(view), view.axis, units)}; counted are <CountedChooser view={view} onChoose={change} />,{' '}
      <AccountChooser view={view} onChoose={change} />.
      {view.outcome === 'component' && (
        <>
          {' '}
          Taken: <FailureCosts />.
        </>
      )}
    </div>
  );
}
