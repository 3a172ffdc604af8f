import type { Component } from '../../shared/vocabulary.ts';
import type { LifeFacts, NextRenewal } from './life-facts.ts';
import { alterations, type Alteration } from './why-ended-altered.ts';
import { endRule, type EndRule } from './why-ended-state.ts';

/** Why a life ended as it did: the rule that applied, in plain words, and what would have altered it. */
export interface WhyEnded {
  readonly rule: EndRule;
  readonly says: string;
  readonly altered: readonly Alteration[];
  /** What else would have, that no one row decides. */
  readonly besides: string;
}

/** Writes odometer miles in the reader's units. */
export type SayMiles = (miles: number) => string;

const part: Readonly<Record<Component, string>> = { seal: 'seal', gasket: 'gasket', bearing: 'bearing' };

function failureRow({ component, failure, next }: LifeFacts, miles: SayMiles): string {
  if (failure === null) return '';
  const { failureId, mode, date, reports } = failure;
  const more =
    reports > 1
      ? ` ${reports - 1} further ${reports === 2 ? 'report' : 'reports'} before the next renewal, of the same episode, count once with it.`
      : '';
  const gap =
    next !== null && next.miles > failure.miles
      ? ` The ${miles(next.miles - failure.miles)} from there to the renewal (service ${next.serviceId}, ${next.date}) belong to no life.`
      : '';
  return `Failure ${failureId} says “${mode}” on ${date} at ${miles(failure.miles)}: the first ${part[component]} failure after this installation. The life failed at the miles it was found.${gap}${more}`;
}

const because = ({ reason }: NextRenewal): string =>
  reason === null ? 'it gives no reason' : `its reason is “${reason}”`;

const renewal = ({ serviceId, date, miles: at }: NextRenewal, thing: string, miles: SayMiles): string =>
  `Service ${serviceId} renewed the ${thing} on ${date} at ${miles(at)}, and no ${thing} failure is written down before it`;

function byRenewal(facts: LifeFacts, next: NextRenewal, rule: EndRule, miles: SayMiles): string {
  const start = renewal(next, part[facts.component], miles);
  switch (rule) {
    case 'other-failed':
      return `${start}. It repaired failure ${next.other?.failureId} (“${next.other?.mode}”), which is of another component: the life ended with that, and is censored there.`;
    case 'planned':
      return `${start}; ${because(next)}. The life is censored there.`;
    case 'mate-failed':
      return `${start}. The wheel end across the axle failed (failure ${next.mateFailure?.failureId}) and this job repaired it: the part here was renewed along with it, and is censored there.`;
    case 'mate-ordered':
      return `${start}; ${because(next)}. Service ${next.mateOrder?.serviceId}, across the axle on the same job, gives “${next.mateOrder?.reason}”: that end failed, the part here was renewed along with it, and is censored there.`;
    case 'failed-unwritten':
      return `${start}, but ${because(next)} and neither bearings nor hub were replaced. So the seal failed; no failure row tells how, and the mode is taken as “seal-unknown”.`;
    case 'other-by-parts':
      return `${start}, but ${because(next)}. The other parts replaced (${next.replaced.join(', ')}) say that something else failed: the life is censored there.`;
    default:
      return `${start}; ${because(next)}. Whether the ${part[facts.component]} had failed is not told: the life is censored there, and the doubts bound the answers both ways.`;
  }
}

function stillRunning({ lastDay, knownToTheEnd, endMiles, observedTo, component }: LifeFacts, miles: SayMiles): string {
  const until = knownToTheEnd
    ? `to the last known miles of the vehicle, ${miles(endMiles)} on ${lastDay}`
    : `to the end of the observation window, ${observedTo}, at ${miles(endMiles)}`;
  return `No renewal and no ${part[component]} failure is written down after this installation: it was running ${until}, and is censored there.`;
}

const whenMiles =
  'A failure counts only with miles, on a day inside the observation window, and on a wheel end the vehicle has.';

function besides(rule: EndRule, { left, component }: LifeFacts): string {
  if (rule === 'failure-row') return whenMiles;
  if (rule === 'running')
    return `A renewal or a ${part[component]} failure written down for this wheel end would have ended it there; later miles of the vehicle would have lengthened it. ${whenMiles}`;
  if (rule === 'unit-left' && left !== null && left.rowsAfter > 0)
    return `${left.rowsAfter} ${left.rowsAfter === 1 ? 'row of this wheel end is' : 'rows of this wheel end are'} dated after it left, and not used; without the leaving they would have been.`;
  return `A ${part[component]} failure written down before it would have failed the life at the miles it was found. ${whenMiles}`;
}

/** Rule 5.3 and 5.4 of the record contract, as they fell for this life. */
export function whyEnded(facts: LifeFacts, miles: SayMiles): WhyEnded {
  const rule = endRule(facts);
  const says =
    rule === 'failure-row'
      ? failureRow(facts, miles)
      : rule === 'running'
        ? stillRunning(facts, miles)
        : rule === 'unit-left'
          ? `Vehicle ${facts.unitId} left the fleet${facts.left?.date ? ` on ${facts.left.date}` : ''} at ${miles(facts.endMiles)} with this part on it: the life is censored there.`
          : byRenewal(facts, facts.next as NextRenewal, rule, miles);
  return { rule, says, altered: alterations(facts, rule), besides: besides(rule, facts) };
}
