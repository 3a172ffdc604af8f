'use client';

import { useView } from '../../_state/use-view.ts';
import { AccountChooser, CountedChooser } from '../asked/asked-choosers.tsx';
import { Chooser } from '../scope/chooser.tsx';

/** What the comparison is asked for, as a sentence; the address holds every word of it. */
export function ShopsChoices() {
  const { view, change } = useView();
  const bySite = view.by.includes('site');
  const byFinder = view.attribution === 'finding';
  const radio = (name: string, says: string, checked: boolean, choose: () => void) => (
    <label>
      <input type="radio" name={name} checked={checked} onChange={choose} /> {says}
    </label>
  );
  const others = view.by.filter((column) => column !== 'site');
  return (
    <div className="asked">
      Counted are <CountedChooser view={view} onChoose={change} />; compared are{' '}
      <Chooser label="What is compared" word={bySite ? 'own shops, vendors and the roadside' : 'shops'}>
        <fieldset className="choices">
          <legend>Compared are</legend>
          {radio('compared', 'shops', !bySite, () => change({ by: others }))}
          {radio('compared', 'own shops, vendors and the roadside', bySite, () => change({ by: ['site'] }))}
        </fieldset>
      </Chooser>
      , by who{' '}
      <Chooser label="Whose it counts as" word={byFinder ? 'found how it ended' : 'fitted the part'}>
        <fieldset className="choices">
          <legend>Each life counts for the shop that</legend>
          {radio('attribution', 'fitted the part', !byFinder, () => change({ attribution: 'installing' }))}
          {radio('attribution', 'found how it ended', byFinder, () => change({ attribution: 'finding' }))}
          <p className="quiet">
            Who finds a failure is where the vehicle was, not whose work failed: it compares what shops come to see.
          </p>
        </fieldset>
      </Chooser>
      , <AccountChooser view={view} onChoose={change} />.
    </div>
  );
}
