import { shownLimits, type Group } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import { eventRate } from '../../statistics/index.ts';
import { rateName } from '../age-axis.ts';
import type { Asking } from '../asking.ts';
import { firmnessOfComparison } from '../firmness.ts';
import { gather, placesWhere } from '../gather.ts';
import { rateEstimate } from '../rates.ts';
import type { DoseEvidence } from './dose-evidence.ts';
import { ratiosToFirst } from './dose-fits.ts';
import { middleStretch, stretches, type Stretch } from './value-window.ts';

export interface DoseGroup {
  readonly group: Group;
  readonly side: Stretch['side'];
}

/** Every stretch of the scale with a reading in it: its rate, and its ratio to the middle of the window. */
export function doseGroups(evidence: DoseEvidence, { view, words }: Pick<Asking, 'view' | 'words'>): DoseGroup[] {
  const all = stretches(evidence.window, evidence.quantity, words.system);
  // The middle first: the others are held against it.
  const order = [middleStretch, ...all.keys()].filter((at, place) => place === 0 || at !== middleStretch);
  const stretchOf = Int32Array.from(evidence.value, (value) => all.findIndex(({ holds }) => holds(value)));
  const codes = stretchOf.map((at) => order.indexOf(at));
  const ratios = ratiosToFirst(
    evidence,
    order.map((at) => all[at]?.label ?? ''),
    codes,
    view.level,
  );
  return all.flatMap((stretch, at): DoseGroup[] => {
    const places = placesWhere(stretchOf.length, (place) => stretchOf[place] === at);
    const ratio = ratios[order.indexOf(at)];
    if (places.length === 0 || !ratio) return [];
    const events = gather(evidence.event, places);
    const failures = events.reduce((sum, one) => sum + one, 0);
    const least = at === middleStretch ? failures : Math.min(failures, failuresOf(evidence, codes, 0));
    const rate = rateOf(evidence, places, view);
    const { estimate, pValue } = ratio;
    return [
      {
        side: stretch.side,
        group: {
          ...{ label: stretch.label, by: { value: stretch.label }, lives: places.length, failures },
          miles: gather(evidence.miles, places).reduce((sum, one) => sum + one, 0),
          firmness: firmnessOfComparison({ least, pValue, ratio: shownLimits(estimate), doubted: false }),
          counts: {},
          estimates: {
            ...(at === middleStretch ? {} : { hazardRatio: estimate }),
            [rateName('failures', view.axis)]: rate,
          },
        },
      },
    ];
  });
}

const failuresOf = ({ event }: DoseEvidence, codes: Int32Array, code: number): number =>
  codes.reduce((sum, own, at) => sum + (own === code ? (event[at] as number) : 0), 0);

function rateOf({ event, exposure, adjustment }: DoseEvidence, places: Int32Array, { level, axis }: View) {
  const watched = gather(exposure, places);
  if (!watched.some((one) => one > 0)) return rateEstimate(null, level, axis);
  const cluster = { levels: adjustment.cluster.levels, codes: gather(adjustment.cluster.codes, places) };
  return rateEstimate(eventRate({ events: gather(event, places), exposure: watched, cluster }, { level }), level, axis);
}
