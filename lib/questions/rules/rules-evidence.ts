import { deviationColumn } from '../../../shared/deviations.ts';
import type { View } from '../../../shared/view.ts';
import { ageAxes } from '../age-axis.ts';
import type { Asking } from '../asking.ts';
import { chosenPair, type Pair } from '../comparison.ts';
import { detectionEvidence, type DetectionEvidence } from '../detection/detection-evidence.ts';
import { ended } from '../life-rows.ts';
import { mateRenewals } from './mate-renewals.ts';
import type { RuleEvidence } from './readings.ts';

/** What is compared under every rule: the view's cut, else its chosen deviation, else nothing. */
export const comparedBy = ({ by, deviation }: Pick<View, 'by' | 'deviation'>): View['by'] =>
  by.length > 0 ? by : deviation === null ? [] : [deviationColumn(deviation)];

export async function rulesEvidence(asking: Asking): Promise<RuleEvidence> {
  const { view } = asking;
  const evidence = await detectionEvidence(asking, comparedBy(view));
  return {
    evidence,
    mates: await mateRenewals(asking, view.component),
    // Who asks of one mode does not mean any.
    anyFailure: view.mode === null ? anyFailure(evidence, view) : null,
    step: ageAxes[view.axis].step,
  };
}

function anyFailure({ outcomes, lives, rows }: DetectionEvidence, { axis }: View): Float64Array | null {
  if (!outcomes) return null;
  const placeOf = new Map(Array.from(rows, (row, place) => [row, place]));
  const first = new Float64Array(lives.rows).fill(Infinity);
  for (let at = 0; at < outcomes.rows; at++) {
    const place = placeOf.get(outcomes.life[at] as number);
    const age = outcomes.age[axis][at] as number;
    if (place !== undefined) first[place] = Math.min(first[place] as number, Number.isNaN(age) ? Infinity : age);
  }
  return first;
}

/** The two groups set against each other: of a deviation yes against no, else the highest plain rate against the lowest. */
export function pairOf({ evidence: { groups, lives, by } }: RuleEvidence, view: View): Pair | null {
  if (by.length === 0) return null;
  const [events, watched] = [new Float64Array(groups.length), new Float64Array(groups.length)];
  for (let place = 0; place < lives.rows; place++) {
    const group = lives.group[place] as number;
    if (lives.ended[place] === ended.failed) events[group] = (events[group] as number) + 1;
    watched[group] = (watched[group] as number) + (lives.exposure[place] as number);
  }
  const rate = events.map((count, group) => count / ((watched[group] as number) || 1));
  return chosenPair({ ...view, by: [...by] }, groups, events, rate);
}
