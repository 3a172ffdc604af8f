import type { LifeFacts } from './life-facts.ts';
import type { SayMiles } from './why-ended.ts';

/** Rules 5.1, 5.2 and 5.6 of the record contract, as they fell for the beginning of this life. */
export function whyBegan(facts: LifeFacts, miles: SayMiles): string {
  return `${start(facts, miles)}${watched(facts, miles)}`;
}

function start(
  { unitId, startMiles, startDate, startServiceId, inferred, component, installKind }: LifeFacts,
  miles: SayMiles,
): string {
  if (startServiceId !== null && startMiles !== null) {
    const fitted = `Service ${startServiceId} on ${startDate} at ${miles(startMiles)}`;
    return inferred === 'start' || inferred === 'both'
      ? `${fitted} took the hub off, and the procedure valid then renews the ${component} whenever it comes off: so it was renewed, though the row does not list it.`
      : `${fitted} lists the part among those replaced.`;
  }
  if (installKind === 'original' && startMiles !== null)
    return `It came with vehicle ${unitId}, new${startDate === null ? '' : ` on ${startDate}`} at ${miles(startMiles)}.`;
  return `When it was fitted is not known: vehicle ${unitId} came used, or nothing says at what miles it came. It has no age and stands in no life curve; its miles and failures count in the rates.`;
}

/** Late entry: miles before the window count for no risk. */
const watched = ({ entryMiles, beginMiles, observedFrom }: LifeFacts, miles: SayMiles): string =>
  entryMiles !== null && entryMiles > 0
    ? ` It was ${miles(entryMiles)} old, at ${miles(beginMiles)}, when it was first watched (the window begins on ${observedFrom}).`
    : '';
