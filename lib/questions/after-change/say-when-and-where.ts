import type { Finding, Group } from '../../../shared/finding.ts';
import { emphasised } from '../words/emphasised.ts';
import { listed } from '../words/share-words.ts';
import type { ChangeEvidence } from './change-evidence.ts';
import { planOf, planSeries } from './plan.ts';
import { placesWhere } from '../gather.ts';

/** Why no change is judged, and what has to be given first. */
export interface Unjudged {
  readonly says: string;
  readonly first: string;
  /** The shops are to be chosen yet: the answer names those there are. */
  readonly toChoose: boolean;
}

/** Shops a plan is made for; there are seldom more that one would change. */
const mostShops = 30;

/** What is shown until a change is asked for: who could change, and what it would take to see it. */
export function sayWhenAndWhere(
  evidence: ChangeEvidence,
  { says, first, toChoose }: Unjudged,
): Pick<Finding, 'answer' | 'emphasis' | 'firmness' | 'firmnessReason' | 'asks' | 'groups' | 'series' | 'doubts'> {
  const { shop, shops, followedTo } = evidence;
  const sized = shops
    .map((label, code) => ({ label, places: placesWhere(shop.length, (at) => shop[at] === code) }))
    .filter(({ places }) => places.length > 0)
    .sort((a, b) => b.places.length - a.places.length || (a.label < b.label ? -1 : 1));
  const known = sized.filter(({ label }) => label !== 'unknown');
  const names = known.slice(0, 8).map(({ label }) => label);
  const who =
    names.length === 0
      ? 'no life tells the shop that fitted it'
      : `shops here are ${listed(names)}${known.length > names.length ? ` and ${known.length - names.length} more` : ''}`;
  return {
    ...emphasised(toChoose ? `${says}; ${who}.` : `${says}.`),
    ...{ firmness: 'too few', firmnessReason: 'nothing compared yet', doubts: [] },
    asks: `Nothing is judged yet. First: ${first}.`,
    groups: sized.slice(0, mostShops).map(({ label, places }) => shopGroup(evidence, label, places)),
    series: known.slice(0, mostShops).flatMap(({ label }) => {
      const plan = planOf(evidence, [label], followedTo, 1);
      return plan === null ? [] : [planSeries(plan, label)];
    }),
  };
}

/** A shop that could change, and what stands behind a plan for it. */
function shopGroup({ event, miles }: ChangeEvidence, label: string, places: Int32Array): Group {
  const total = (column: Float64Array | Uint8Array) => places.reduce((sum, at) => sum + (column[at] as number), 0);
  return {
    ...{ label, by: { shop: label }, lives: places.length, failures: total(event), miles: total(miles) },
    ...{ firmness: 'too few', counts: {}, estimates: {} },
  };
}
