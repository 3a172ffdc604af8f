import { shownLimits, type Doubt, type Estimate, type Group } from '../../../shared/finding.ts';
import { daysAMonth } from '../../../shared/units.ts';
import type { Asking } from '../asking.ts';
import { doubt, failingFirst, failsIf } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { leftOut } from '../doubts/left-out.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles } from '../doubts/shares.ts';
import { firmnessRule } from '../firmness.ts';
import { gather } from '../gather.ts';
import { ended } from '../life-rows.ts';
import { componentWords } from '../words/component-words.ts';
import { listed, percent } from '../words/share-words.ts';
import { count, counted, ratioText, significant } from '../words/wording.ts';
import type { AheadEvidence } from './ahead-evidence.ts';
import type { AheadForecast } from './forecast.ts';
import type { FittedKind } from './kinds.ts';

/** Above these shares a weakness may have made the answer. */
const most = { beyond: 0.1, unknownStart: 0.1, noPace: 0.2, stale: 0.2 };
const staleDays = 90;

export interface AheadTold {
  readonly asking: Asking;
  readonly evidence: AheadEvidence;
  readonly kinds: readonly FittedKind[];
  readonly forecast: AheadForecast;
  readonly total: Estimate;
  readonly groups: readonly Group[];
  readonly failures: number;
}

const sumAt = (column: Float64Array, places: Int32Array) => gather(column, places).reduce((sum, one) => sum + one, 0);

export function aheadDoubts(told: AheadTold): Doubt[] {
  const { asking, evidence, failures } = told;
  const { source, view } = asking;
  const thing = componentWords[view.component];
  const { lives, aged } = evidence;
  const estimated = aged.reduce((sum, place) => sum + (lives.extrapolated[place] as number), 0);
  return failingFirst([
    fewFailures([{ label: 'all', failures }], thing.failure),
    likeThePast(told),
    beyondWatched(told),
    oneShape(told),
    noStart(told),
    unknownRemovals(told),
    ownPaces(told),
    stale(told),
    doubt(
      'Renewed or fitted ahead',
      'cannot-tell',
      `Told is of the ${thing.many} running now, had none been renewed: planned renewals take some away, and what is fitted ahead may fail early and is not counted.`,
      'the renewals planned for the same stretch',
    ),
    doubt(
      'Found, not begun',
      'cannot-tell',
      `Expected are ${thing.failure}s found at today’s looking. Some are there already and not found; a closer look finds more, and sooner.`,
      'an inspection of those running',
    ),
    estimatedMiles({ some: estimated, all: aged.length }),
    setAsideRows(source.account),
    leftOut(evidence.leftOut),
  ]);
}

/** Whether each group has failed as its kinds do: a forecast by kind is off where a group is unlike its kind. */
function likeThePast({ groups }: AheadTold): Doubt | null {
  const [least, upmost] = firmnessRule.noDifference;
  const unlike = groups.flatMap(({ label, failures, estimates }) => {
    const ratio = estimates['observedToExpected'];
    if (!ratio || ratio.value === null || failures < firmnessRule.thinFailures) return [];
    const { lower, upper } = shownLimits(ratio);
    const outside = (lower !== null && lower > upmost) || (upper !== null && upper < least);
    return outside ? [`${label} (${ratioText(ratio.value)} times)`] : [];
  });
  return doubt(
    'Groups like their kind',
    failsIf(unlike.length > 0),
    unlike.length === 0
      ? 'No group has failed much more or less often so far than its kinds of lives do, as far as can be told.'
      : `So far these failed unlike their kinds of lives, and may go on so: ${listed(unlike.slice(0, 6))}${unlike.length > 6 ? ` and ${count(unlike.length - 6)} more` : ''}. The forecast takes every group for the average of its kinds.`,
    'that group looked at alone, by a filter',
  );
}

function beyondWatched({ evidence, forecast, total }: AheadTold): Doubt | null {
  if (!total.value) return null;
  const share = sumAt(forecast.chance, forecast.beyond) / total.value;
  return doubt(
    'Beyond what was watched',
    failsIf(share > most.beyond),
    evidence.running.length > 0 && share > 0
      ? `${percent(share)} of the failures expected are of lives that run to ages at which fewer than ten were watched: there the fitted shape alone tells.`
      : 'All run within ages at which ten or more were watched.',
    'lives left to run further',
  );
}

function oneShape({ evidence, forecast, kinds, total }: AheadTold): Doubt | null {
  const two = kinds.filter(({ fits }) => fits.used !== fits.weibull);
  const settledBy = 'more failures, early and late';
  if (two.length === 0)
    return doubt('One shape', 'holds', 'One shape a kind tells the lives, or two are not called for.', settledBy);
  const expected = sumAt(forecast.oneShape, evidence.running);
  const { lower, upper } = shownLimits(total);
  const outside = expected < (lower ?? -Infinity) || expected > (upper ?? Infinity);
  return doubt(
    'One shape',
    failsIf(outside),
    `Early failures and wear-out are told apart for ${listed(two.map(({ label }) => label))}; under one shape for each ${significant(expected, 2)} would be expected.`,
    settledBy,
  );
}

/** Nobody knows how old they are: what their own rate would add is said, not added. */
function noStart({ evidence, total }: AheadTold): Doubt | null {
  const { unknownStart, lives, aheadMiles } = evidence;
  if (unknownStart.length === 0) return null;
  let [failures, miles] = [0, 0];
  for (let place = 0; place < lives.rows; place++) {
    if (!Number.isNaN(lives.exit[place])) continue;
    miles += lives.exposureMiles[place] as number;
    if (lives.ended[place] === ended.failed) failures++;
  }
  const ahead = unknownStart.reduce(
    (sum, place) => sum + (Number.isNaN(aheadMiles[place]) ? 0 : (aheadMiles[place] as number)),
    0,
  );
  const more = miles > 0 ? (failures / miles) * ahead : NaN;
  return doubt(
    'Unknown starts',
    Number.isNaN(more) ? 'cannot-tell' : failsIf(more > most.unknownStart * (total.value ?? 0)),
    `${counted(unknownStart.length, 'running life', 'running lives')} of unknown start ${unknownStart.length === 1 ? 'is' : 'are'} not in the forecast${Number.isNaN(more) ? '' : `; at the rate of such lives they may add ${significant(more, 2)}`}.`,
    'service records from before, or the miles at which vehicles were bought',
  );
}

function unknownRemovals({ evidence: { lives, aged }, total, failures }: AheadTold): Doubt | null {
  const removed = aged.filter((place) => lives.ended[place] === ended.removedUnknown).length;
  if (removed === 0 || !total.value || failures === 0) return null;
  const more = (total.value * (failures + removed)) / failures;
  return doubt(
    'Removed for no stated reason',
    failsIf(more > (shownLimits(total).upper ?? Infinity)),
    `${counted(removed, 'life', 'lives')} came off for no stated reason and count as not failed; had all of them failed, about ${significant(more, 2)} would be expected.`,
    'the reason of those services',
  );
}

function ownPaces({ evidence, asking: { view, source } }: AheadTold): Doubt | null {
  if (view.ahead === 'miles') return null;
  const { running, lives, paces } = evidence;
  const without = running.filter((place) => paces.own[lives.unit[place] as number] === 0).length;
  const share = running.length === 0 ? 0 : without / running.length;
  const whence = source.fromRecords
    ? 'over its last year'
    : 'over the lives now running, as a table of lives tells no readings';
  return doubt(
    'Miles ahead',
    failsIf(share > most.noPace),
    `Months are turned into miles by each vehicle’s own median pace ${whence}${without === 0 ? '' : `; ${percent(share)} of wheel ends (${count(without)}) have none of their own and take the median of the others`}. A change of work ahead is not known.`,
    'the work planned for each vehicle',
  );
}

/** A wheel end last seen long before the records end may be out of service, or older than told. */
function stale({ evidence, asking: { source } }: AheadTold): Doubt | null {
  const { observedTo } = source.account;
  const { running, rows, columns } = evidence;
  if (observedTo === null || running.length === 0) return null;
  const last = Date.parse(`${observedTo}T00:00:00Z`) / 86_400_000;
  const long = running.filter((place) => {
    const row = rows[place] as number;
    return last - (columns.installDay[row] as number) - (columns.months.exit[row] as number) * daysAMonth > staleDays;
  }).length;
  return doubt(
    'Not seen lately',
    failsIf(long / running.length > most.stale),
    long === 0
      ? `Every running life was seen in the last ${staleDays} days of the records.`
      : `${percent(long / running.length)} of running lives (${count(long)}) were last seen more than ${staleDays} days before the records end; they are told on from there.`,
    'odometer readings to the end of the records',
  );
}
