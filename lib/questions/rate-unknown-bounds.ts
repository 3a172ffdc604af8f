import type { Axis } from '../../shared/view.ts';
import type { UnknownExposure } from './doubts/unknown-exposure.ts';
import type { GroupKey } from './group-keys.ts';
import { sumByGroup, type Tally, type TallyName } from './tally.ts';

/**
 * Rate with a deviation over the rate without it: as recorded, and with the lives whose record does
 * not tell put to either side.
 */
export function unknownRates(
  tally: Tally,
  events: TallyName,
  axis: Axis,
  groups: readonly GroupKey[],
): UnknownExposure {
  const sums = (name: TallyName) => sumByGroup(tally, name, groups.length);
  const [counts, watched, lives] = [sums(events), sums(axis), sums('lives')];
  const at = (label: string) => groups.findIndex((group) => group.label === label);
  const rate = (...labels: string[]) => {
    const total = (column: Float64Array) => labels.reduce((all, label) => all + (column[at(label)] ?? 0), 0);
    return total(watched) > 0 ? total(counts) / total(watched) : null;
  };
  const over = (one: number | null, other: number | null) => (one === null || !other ? null : one / other);
  return {
    ...{ unknown: lives[at('unknown')] ?? 0, all: lives.reduce((sum, one) => sum + one, 0) },
    ratio: over(rate('yes'), rate('no')),
    ifAllYes: over(rate('yes', 'unknown'), rate('no')),
    ifAllNo: over(rate('yes'), rate('no', 'unknown')),
  };
}
