import type { UnitSystem } from '../../shared/units.ts';
import { defaultView, type View } from '../../shared/view.ts';
import { costParameters } from './cost-parameters.ts';
import { horizonToText } from './horizon-text.ts';

/**
 * The query part of a link (`?by=role&lubricant=oil`), empty where all is as first shown.
 * Two cuts are parted by a space (written `+`); several values of one column repeat its name.
 */
export function viewToSearch(view: View, units: UnitSystem): string {
  const search = new URLSearchParams();
  const put = (name: string, value: string | null, usual: string | null) => {
    if (value !== usual && value !== null) search.append(name, value);
  };
  put('component', view.component, defaultView.component);
  put('mode', view.mode, defaultView.mode);
  put('by', view.by.join(' '), '');
  for (const [column, values] of Object.entries(view.where).sort(([a], [b]) => a.localeCompare(b)))
    for (const value of values ?? []) search.append(column, value);
  put('from', view.installedFrom, null);
  put('to', view.installedTo, null);
  put('axis', view.axis, defaultView.axis);
  put('months', String(view.horizonMonths), String(defaultView.horizonMonths));
  put('horizon', horizonToText(view.horizonMiles), horizonToText(defaultView.horizonMiles));
  put('level', String(view.level), String(defaultView.level));
  put('interval', view.interval, defaultView.interval);
  put('adjust', view.adjust.join(' '), '');
  put('outcome', view.outcome, defaultView.outcome);
  put('early', horizonToText(view.earlyMiles), horizonToText(defaultView.earlyMiles));
  put('early-months', String(view.earlyMonths), String(defaultView.earlyMonths));
  put('deviation', view.deviation, defaultView.deviation);
  put('attribution', view.attribution, defaultView.attribution);
  put('change', view.change, null);
  for (const shop of view.changedShops) search.append('changed-shop', shop);
  put('saving', view.saving.join(' '), '');
  put('saving-to', view.savingTo, defaultView.savingTo);
  for (const [code, share] of Object.entries(view.savingLevels).sort(([a], [b]) => a.localeCompare(b)))
    search.append('saving-level', `${code}:${share}`);
  for (const [name, field] of costParameters) put(name, String(view[field]), String(defaultView[field]));
  put('ahead', view.ahead, defaultView.ahead);
  put('ahead-miles', horizonToText(view.aheadMiles), horizonToText(defaultView.aheadMiles));
  put('ahead-months', String(view.aheadMonths), String(defaultView.aheadMonths));
  put('units', units, 'us');
  const text = search.toString();
  return text === '' ? '' : `?${text}`;
}
