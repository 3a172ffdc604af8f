import type { Doubt } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { doubt, failingFirst } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles } from '../doubts/shares.ts';
import { attributeName } from '../words/group-words.ts';
import { listed, sentenceCase } from '../words/share-words.ts';
import { namedGroup, shopWords } from '../words/shops-answer.ts';
import type { GroupChecks } from './checks-of-lives.ts';
import { isOneGroup } from './compared-groups.ts';
import { commonGroundDoubt, manyCompared, spreadDoubt } from './doubts/apart-by-chance.ts';
import { sameThroughout } from './doubts/by-age.ts';
import { lateLives, leftOutLives, notKnown, recentQuarters } from './doubts/lives-compared.ts';
import { fittedAndFound, lookedAtAlike, recordedAlike } from './doubts/looked-and-recorded.ts';
import { removedUnexplained } from './doubts/removed-unexplained.ts';
import { onePart, oneVehicle } from './doubts/without-part.ts';
import type { LikeForLike } from './like-for-like.ts';
import type { Quarter } from './quarters.ts';
import type { ShopGroup } from './shop-group.ts';
import type { ShopsEvidence } from './shops-evidence.ts';
import type { Shrunken } from './shrunken.ts';

export interface ShopChecks {
  readonly asking: Asking;
  readonly evidence: ShopsEvidence;
  readonly alike: LikeForLike | null;
  readonly shrunken: Shrunken | null;
  readonly groups: readonly ShopGroup[];
  readonly quarters: readonly Quarter[];
  /** Null where no inspections stand behind the lives. */
  readonly checks: readonly GroupChecks[] | null;
  readonly byFinder: boolean;
}

/** The doubts about a comparison of shops, failing first. */
export function shopDoubts(of: ShopChecks): Doubt[] {
  const { asking, evidence, groups } = of;
  const { failure } = shopWords(evidence.asked);
  const compared = groups.filter((own) => own.compared);
  const known = groups.filter(({ group }) => isOneGroup(group.label)).map(({ group }) => group);
  const estimated = evidence.rows.reduce((sum, row) => sum + (evidence.columns.estimated[row] as number), 0);
  return failingFirst([
    known.length > 0 ? fewFailures(known, failure) : null,
    ...aboutNamed(of),
    commonGroundDoubt(groups),
    manyCompared(compared),
    spreadDoubt(of.alike, of.shrunken, compared),
    lookedAtAlike(of.checks, compared),
    recordedAlike(compared),
    fittedAndFound(evidence, of.byFinder, asking.view.attribution === 'finding'),
    notKnown(evidence),
    lateLives(evidence),
    recentQuarters(of.quarters),
    pickedByView(of),
    takenIntoAccount(of),
    ...(asking.view.axis === 'months' ? [] : [estimatedMiles({ some: estimated, all: evidence.rows.length })]),
    setAsideRows(asking.source.account),
    leftOutLives(evidence),
  ]);
}

/** What could carry the one difference that the answer names. */
function aboutNamed({ asking, evidence, alike, groups }: ShopChecks): (Doubt | null)[] {
  const named = namedGroup(groups);
  if (!named || !alike) return [];
  const { place, group } = named;
  return [
    oneVehicle(evidence, alike.plain, place, group.label),
    onePart(evidence, alike.plain, place, group.label),
    removedUnexplained(evidence, named),
    sameThroughout(evidence, place, group.label, asking.view.level, asking.words),
  ];
}

function pickedByView({ asking, evidence }: ShopChecks): Doubt | null {
  const picked = asking.view.where[evidence.compared];
  if (!picked) return null;
  const lead = `Only ${listed(picked)} ${picked.length === 1 ? 'is' : 'are'} chosen, and the average is of ${picked.length === 1 ? 'it' : 'these'} alone`;
  const detail = `${lead}. Those picked after a look at their numbers differ by that look.`;
  return doubt('Picked by the view', 'cannot-tell', detail, 'the comparison of all');
}

function takenIntoAccount({ evidence, alike }: ShopChecks): Doubt | null {
  if (!alike) return null;
  const { covariates, strataOf, said } = evidence.adjustment;
  const columns = [...strataOf, ...Object.keys(covariates)].map(attributeName);
  const none = columns.length === 0;
  const lead = none
    ? 'Nothing but age is taken into account'
    : `Like work is alike in age, ${listed(columns)}; other differences are not known`;
  const detail = `${[lead, ...said].map(sentenceCase).join('. ')}.`;
  return doubt('Like for like', none ? 'fails' : 'holds', detail, 'records of what else the work differs in');
}
