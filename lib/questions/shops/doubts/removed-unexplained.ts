import { shownLimits, type Doubt } from '../../../../shared/finding.ts';
import { observedExpected } from '../../../statistics/index.ts';
import { doubt, failsIf } from '../../doubts/doubt.ts';
import { counted, ratioText } from '../../words/wording.ts';
import type { ShopGroup } from '../shop-group.ts';
import type { ShopsEvidence } from '../shops-evidence.ts';

/** Parts that came off for no stated reason, had each failed: fails where that takes the named ratio out of its limits. */
export function removedUnexplained(evidence: ShopsEvidence, { group, place }: ShopGroup): Doubt | null {
  const { entry, exit, event, removed, groups, adjustment } = evidence;
  const count = removed.reduce((sum, one) => sum + one, 0);
  const ratio = group.estimates['observedToExpected'];
  if (count === 0 || ratio?.value == null) return null;
  const had = observedExpected(
    {
      ...{ entry, exit, event: event.map((one, at) => Math.max(one, removed[at] as number)) },
      ...{ group: groups, covariates: adjustment.covariates },
      ...(adjustment.strataOf.length > 0 ? { strata: adjustment.strata } : {}),
    },
    { influence: false },
  ).ratio[place];
  if (had == null) return null;
  const { lower, upper } = shownLimits(ratio);
  const fails = had < (lower ?? 0) || had > (upper ?? Infinity);
  const detail = `${counted(count, 'part')} came off for no stated reason and count as not failed; had all failed, “${group.label}” would have ${ratioText(had)} times the expected instead of ${ratioText(ratio.value)}.`;
  return doubt('Removed for no stated reason', failsIf(fails), detail, 'the reason of those services');
}
