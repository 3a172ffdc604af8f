import { deviations } from '../../../shared/deviations.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import type { Conflict } from '../../_state/lives-desk.ts';
import { limitSays, shownNumber, stepSays, windowSays, limitQuantity } from './procedure-words.ts';

type Kind = keyof Conflict['says'];

/** What one kind of evidence rests on, in words: `outer nut torque 410 lbf·ft, limits 250–350 lbf·ft`. */
function restsOn(kind: Kind, conflict: Conflict, units: UnitSystem): string {
  const evidence = deviations.find(({ code }) => code === conflict.code)?.evidence;
  if (kind === 'measured' && evidence?.measured && conflict.value !== null) {
    const { limit } = evidence.measured;
    const { minimum, maximum } = conflict;
    const window = windowSays({ minimum, maximum, source: '' }, limit, units);
    return `${limitSays[limit]} ${shownNumber(conflict.value, limitQuantity[limit], units)}, limits ${window}`;
  }
  if (kind === 'step' && evidence?.step)
    return `step “${stepSays(evidence.step)}” ${conflict.says.step === 'yes' ? 'skipped' : 'done'}`;
  const stated = evidence?.stated;
  const column = stated && conflict.stated !== null ? `${stated.column} = ${conflict.stated}` : '';
  return [conflict.listed ? 'written down as a deviation' : '', column].filter((text) => text !== '').join(', ');
}

/** What says yes, or what says no. */
export const evidenceFor = (word: 'yes' | 'no', conflict: Conflict, units: UnitSystem): string =>
  (['measured', 'recorded', 'step'] as const)
    .filter((kind) => conflict.says[kind] === word)
    .map((kind) => restsOn(kind, conflict, units))
    .join('; ');
