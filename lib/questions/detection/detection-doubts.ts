import { shownLimits, type Doubt, type Group } from '../../../shared/finding.ts';
import { proportion } from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { doubt, failingFirst, failsIf } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { leftOut } from '../doubts/left-out.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles } from '../doubts/shares.ts';
import { vehicleClustering } from '../doubts/vehicle-clustering.ts';
import { groupWords } from '../words/group-words.ts';
import { listed, percent, sentenceCase } from '../words/share-words.ts';
import { count, ratioText } from '../words/wording.ts';
import type { DetectionEvidence } from './detection-evidence.ts';
import type { Seen } from './detection-group.ts';

export interface DetectionChecks {
  readonly asking: Asking;
  readonly evidence: DetectionEvidence;
  readonly all: Seen;
  readonly groups: readonly Group[];
}

/** Checks a group gets, over those of another, from which the looking is too unlike to compare what was found. */
const unlikeLooking = 1.5;

export function detectionDoubts({ asking, evidence, all, groups }: DetectionChecks): Doubt[] {
  const { source, view } = asking;
  const { lives, aged } = evidence;
  const sum = (column: Uint8Array) => aged.reduce((total, place) => total + (column[place] as number), 0);
  return failingFirst([
    fewFailures(
      groups.map(({ label, failures }) => ({ label, failures })),
      'leak',
    ),
    lateOf(all),
    missedOf(all),
    lookingOf(groups),
    assumedOf(all),
    view.axis === 'miles' ? estimatedMiles({ some: sum(lives.extrapolated), all: aged.length }) : null,
    vehicleClustering(all.begun.byHorizon, new Set(Array.from(aged, (place) => lives.unit[place])).size),
    setAsideRows(source.account),
    leftOut(evidence.leftOut),
  ]);
}

function lateOf({ found, begun }: Seen): Doubt | null {
  if (found.value === null || begun.byHorizon.value === null) return null;
  const { upper } = shownLimits(found);
  const beyond = upper !== null && begun.byHorizon.value > upper;
  return doubt(
    'Found late',
    failsIf(beyond),
    `Counted from when they can have begun, ${percent(begun.byHorizon.value)} leak by the horizon against ${percent(found.value)} found: ${beyond ? 'beyond' : 'within'} the limits of what was found.`,
    'clean inspections written down more often',
  );
}

function missedOf({ lastMissed, begun }: Seen): Doubt | null {
  if (lastMissed === null || begun.byHorizon.value === null) return null;
  const settledBy = 'looking behind the wheel at lives in grease, not only at the hub';
  const [value, limits] = [lastMissed.byHorizon.value, shownLimits(begun.byHorizon)];
  if (value === null)
    return doubt('Grease hides leaks', 'cannot-tell', 'What a missed leak would change cannot be told.', settledBy);
  const outside = (limits.lower !== null && value < limits.lower) || (limits.upper !== null && value > limits.upper);
  return doubt(
    'Grease hides leaks',
    failsIf(outside),
    `Had the last dry check of each life in semi-fluid grease or packed missed the leak, ${percent(value)} would leak by the horizon, instead of ${percent(begun.byHorizon.value)}.`,
    settledBy,
  );
}

function lookingOf(groups: readonly Group[]): Doubt | null {
  const rates = groups.flatMap((group) => {
    const rate = group.estimates['checksMade']?.value ?? null;
    return rate === null ? [] : [{ where: groupWords(group), rate }];
  });
  if (rates.length < 2) return null;
  rates.sort((a, b) => b.rate - a.rate);
  const [most, least] = [rates[0] as (typeof rates)[0], rates.at(-1) as (typeof rates)[0]];
  const times = least.rate > 0 ? most.rate / least.rate : Infinity;
  return doubt(
    'Looked at unalike',
    failsIf(times > unlikeLooking),
    Number.isFinite(times)
      ? `${sentenceCase(most.where)} wheel ends are checked ${ratioText(times)} times as often as ${least.where} over the same distance.`
      : `${sentenceCase(listed(rates.filter(({ rate }) => rate === 0).map(({ where }) => where)))} no wheel end was ever checked.`,
    'the same checks on every group',
  );
}

/** What the chance rests on; refused or not, a reader should know. */
function assumedOf({ detection: { delay, reason } }: Seen): Doubt {
  const assumed =
    'It takes every check as equally good and blind to the one before, a leak never heals, and it begins at a Weibull age';
  const settledBy = 'a second look at the same wheel ends by somebody else';
  if (!delay || reason !== null)
    return doubt('Chance a check sees', 'cannot-tell', `Not told: ${reason ?? 'no checks'}.`, settledBy);
  const again = delay.seenAgain + delay.missedAgain;
  const share = delay.seenAgain / again;
  const direct =
    again > 0
      ? ` Of ${count(again)} checks after a leak was seen, ${percent(share)} saw it again.`
      : ' No check came after a leak was seen: the chance rests on the assumed shape, and its limits run short.';
  const { lower, upper } = proportion({ events: delay.seenAgain, total: again });
  const apart = again > 0 && ((delay.chance.value ?? 0) < (lower ?? 0) || (delay.chance.value ?? 1) > (upper ?? 1));
  const state = apart ? 'fails' : again > 0 ? 'holds' : 'cannot-tell';
  const healed = apart ? ' The two do not agree: such leaks may have been put right with nothing written down.' : '';
  return doubt('Chance a check sees', state, `${assumed}.${direct}${healed}`, settledBy);
}
