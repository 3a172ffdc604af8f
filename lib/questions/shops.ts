import { shortCautions } from '../../shared/cautions.ts';
import { shownLimits, type Doubt, type Estimate, type Finding } from '../../shared/finding.ts';
import type { Asking } from './asking.ts';
import { verdictOnComparison, type Verdict } from './firmness.ts';
import { checksByGroup } from './shops/checks-of-lives.ts';
import { comebacks } from './shops/comebacks.ts';
import { likeForLike } from './shops/like-for-like.ts';
import { quartersOf } from './shops/quarters.ts';
import { severeEvents } from './shops/severe-events.ts';
import { shopDoubts, type ShopChecks } from './shops/shop-doubts.ts';
import { shopGroups } from './shops/shop-groups.ts';
import { shopSeries } from './shops/shop-series.ts';
import { shopsEvidence } from './shops/shops-evidence.ts';
import { shrunkenRatios } from './shops/shrunken.ts';
import { liesApart, namedGroup, shopsAnswer, shopWords, titleOf } from './words/shops-answer.ts';

/**
 * Is a shop really different? Failures of what each shop fitted, against those expected of the same
 * work, Σ [Λ(exit|x) − Λ(entry|x)], coefficients fitted with terms for the shops and predicted
 * without: 1 is the average of all shops on like work. Counted of replacement lives with a known start.
 */
export async function shops(asking: Asking): Promise<Finding> {
  const { view, signal } = asking;
  const evidence = await shopsEvidence(asking);
  const { failure: event } = shopWords(evidence.asked);
  signal?.throwIfAborted();
  const alike = likeForLike(evidence, view.level, signal);
  const shrunken = alike && shrunkenRatios(alike.plain);
  const groups = shopGroups({ view, evidence, alike, shrunken, event, comebacks: await comebacks(asking, evidence) });
  const checks = await checksByGroup(asking, evidence);
  const byFinder = evidence.compared === 'shop' && view.attribution === 'finding' && evidence.foundBy !== null;
  const quarters = alike ? quartersOf(evidence, alike.plain) : [];
  signal?.throwIfAborted();
  const of: ShopChecks = { asking, evidence, alike, shrunken, groups, quarters, checks, byFinder };
  return findingOf(of, event, await severeEvents(asking, evidence.compared));
}

function findingOf(of: ShopChecks, event: string, severe: Finding['severeEvents'] | null): Finding {
  const { asking, evidence, groups, byFinder } = of;
  const { view, source, words } = asking;
  const { compared, asked } = evidence;
  const doubts = shopDoubts(of);
  const { firmness, reason } = verdict(of, event, doubts);
  const total = (name: 'lives' | 'failures' | 'miles') => groups.reduce((sum, { group }) => sum + group[name], 0);
  return {
    ...{ question: 'shops', title: titleOf(compared) },
    ...shopsAnswer({ groups, asked, compared, byFinder, words }),
    ...{ firmness, firmnessReason: reason, settings: { ...view, by: [compared] } },
    data: {
      ...source.account,
      files: [...source.account.files],
      ...{ lives: total('lives'), failures: total('failures'), miles: total('miles') },
    },
    groups: groups.map(({ group }) => group),
    series: shopSeries(evidence, of.alike, of.shrunken, of.quarters, view.level),
    doubts,
    ...(severe ? { severeEvents: severe } : {}),
    cautions: shortCautions,
  };
}

/** The group named against all the others together; where none lies apart, the widest of all limits. */
function verdict({ groups }: ShopChecks, event: string, doubts: readonly Doubt[]): Verdict {
  const compared = groups.filter((own) => own.compared);
  const named = namedGroup(groups);
  if (compared.length < 2 || !named)
    return verdictOnComparison({ failures: [], event, pValue: null, ratio: null }, doubts);
  const total = groups.reduce((sum, { group }) => sum + group.failures, 0);
  if (liesApart(named)) {
    const failures = [named.group.failures, total - named.group.failures];
    return verdictOnComparison({ failures, event, pValue: named.pValue, ratio: null }, doubts);
  }
  const limits = compared.map(({ group }) => shownLimits(group.estimates['observedToExpected'] as Estimate));
  const lower = Math.min(...limits.map((own) => own.lower ?? 0));
  const upper = Math.max(...limits.map((own) => own.upper ?? Infinity));
  const failures = compared.map(({ group }) => group.failures);
  return verdictOnComparison({ failures, event, pValue: named.pValue, ratio: { lower, upper } }, doubts);
}
