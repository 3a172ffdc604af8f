import type { View } from '../../../shared/view.ts';
import { firmnessRule } from '../firmness.ts';
import { meanFailureCost, shareOf, type Consequences } from './consequences.ts';

/** What a failure costs in a group, and the shares behind it; null = too few tell, and it is left out of the cost. */
export interface FailureCost {
  readonly mean: number;
  readonly lining: number | null;
  readonly roadCall: number | null;
  /** The failures that those shares are of: the group's own, or of all groups together where its own are few. */
  readonly told: Consequences;
}

/** A group where few tell takes the shares of all groups together. */
export function failureCost(view: View, own: Consequences, all: Consequences): FailureCost {
  const pick = (name: keyof Consequences) =>
    own[name].yes + own[name].no < firmnessRule.fairFailures ? all[name] : own[name];
  const told = { lining: pick('lining'), roadCall: pick('roadCall') };
  const [lining, roadCall] = [shareOf(told.lining), shareOf(told.roadCall)];
  return { mean: meanFailureCost(view, lining ?? 0, roadCall ?? 0), lining, roadCall, told };
}
