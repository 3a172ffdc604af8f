import { shownLimits, type Doubt, type Group } from '../../shared/finding.ts';
import { components } from '../../shared/vocabulary.ts';
import { ageAxes } from './age-axis.ts';
import type { Asking } from './asking.ts';
import { comparable, comparedDeviation, eventsOfKnown, type Comparison } from './comparison.ts';
import { adjustmentMissing } from './doubts/adjustment-missing.ts';
import { estimatedLives } from './doubts/estimated-lives.ts';
import { failingFirst } from './doubts/doubt.ts';
import { fewFailures } from './doubts/few-failures.ts';
import { leaveOneOut, type Carried } from './doubts/leave-one-out.ts';
import { leftOut } from './doubts/left-out.ts';
import { likeForLike } from './doubts/like-for-like.ts';
import { manyComparisons } from './doubts/many-comparisons.ts';
import { removedUnknownRate } from './doubts/removed-unknown-rate.ts';
import { safetyCritical } from './doubts/safety-critical.ts';
import { setAsideRows } from './doubts/set-aside-rows.ts';
import { estimatedMiles, inferredFailures, unplacedEpisodes } from './doubts/shares.ts';
import { unknownExposure } from './doubts/unknown-exposure.ts';
import { vehicleClustering } from './doubts/vehicle-clustering.ts';
import { ratioText } from './words/wording.ts';
import type { RateEvidence } from './rate-evidence.ts';
import { unknownRates } from './rate-unknown-bounds.ts';
import { sumByGroup, type Tally, type TallyName } from './tally.ts';

/** Everything the doubts about a rate look at. */
export interface RateChecks {
  readonly asking: Asking;
  readonly evidence: RateEvidence;
  readonly groups: readonly Group[];
  readonly comparison: Comparison | null;
  /** The column counted, its name in sentences, and the estimate that is its rate. */
  readonly events: TallyName & ('failures' | 'contaminated');
  readonly event: string;
  readonly rate: string;
}

const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

/** The doubts of a rate, failing first; `own` are those of the question itself. */
export function rateDoubts(checks: RateChecks, own: readonly (Doubt | null)[]): Doubt[] {
  const { asking, evidence, groups, comparison, event } = checks;
  const { view, source, words } = asking;
  const { vehicles: tally, mix } = evidence;
  const total = (name: TallyName) => sum(tally.columns[name]);
  const counts = sumByGroup(tally, checks.events, groups.length);
  const labels = groups.map(({ label }) => label);
  return failingFirst([
    fewFailures(eventsOfKnown(groups, counts), event),
    comparedDeviation(view) === null
      ? null
      : unknownExposure(unknownRates(evidence.vehicles, checks.events, view.axis, groups)),
    likeForLike(comparison, mix, labels),
    ...carriers(checks),
    manyComparisons(comparison),
    safetyCritical(view, evidence.cases, words),
    ...own,
    removedOf(checks),
    unplacedEpisodes(evidence.unplaced),
    inferredFailures({ some: total('inferred'), all: total('failures') }),
    ...(view.axis === 'months'
      ? []
      : [estimatedMiles({ some: total('estimated'), all: total('lives') }), estimatedOf(checks)]),
    clusteringOf(checks),
    setAsideRows(source.account),
    leftOut(evidence.leftOut),
    adjustmentMissing(view.adjust),
  ]);
}

/** The rate (of a pair: its ratio) without the lives whose miles are estimated. */
function estimatedOf({ asking, evidence, groups, comparison, events, rate }: RateChecks): Doubt | null {
  const of = (name: TallyName) => sumByGroup(evidence.vehicles, name, groups.length);
  const gone = events === 'failures' ? 'estimatedFailures' : 'estimatedContaminated';
  const [all, miles, out, outMiles] = [of(events), of('miles'), of(gone), of('estimatedMiles')];
  const left = (group: number) => {
    const watched = (miles[group] as number) - (outMiles[group] as number);
    return watched > 0 ? (((all[group] as number) - (out[group] as number)) / watched) * ageAxes.miles.factor : null;
  };
  const { words } = asking;
  const lives = evidence.estimated;
  const answer = (group: number) => groups[group]?.estimates[rate]?.value ?? null;
  if (!comparison) {
    const estimate = groups[0]?.estimates[rate];
    const limits = estimate ? shownLimits(estimate) : { lower: null, upper: null };
    return estimatedLives({ lives, answer: answer(0), limits, without: left(0), write: words.rate, says: words.per });
  }
  const ratio = (rateOf: (group: number) => number | null) => {
    const [one, other] = [rateOf(comparison.compared), rateOf(comparison.reference)];
    return one === null || !other ? null : one / other;
  };
  const about = { lives, answer: ratio(answer), without: ratio(left), limits: comparison.ratio };
  return estimatedLives({ ...about, write: ratioText, says: 'times as often' });
}

/** What the answer stands on: the pair compared, or the one group; nothing where groups cannot be compared. */
const standsOn = ({ comparison, groups }: RateChecks) => comparison ?? (groups.length === 1 ? 0 : null);

function carriers(checks: RateChecks): (Doubt | null)[] {
  const at = standsOn(checks);
  if (at === null) return [];
  const { vehicles, shops, shopNames } = checks.evidence;
  const { by } = checks.asking.view;
  const { axis } = checks.asking.view;
  const carried = ({ group, by: code, columns }: Tally): Carried => ({
    ...{ group, by: code, events: columns[checks.events], watched: columns[axis] },
  });
  return [
    by.includes('shop') ? null : leaveOneOut('shop', carried(shops), at, axis, shopNames),
    by.includes('unit_id') ? null : leaveOneOut('vehicle', carried(vehicles), at, axis),
  ];
}

function clusteringOf(checks: RateChecks): Doubt | null {
  const at = standsOn(checks);
  const group = checks.groups[typeof at === 'number' ? at : (at?.compared ?? -1)];
  const rate = group?.estimates[checks.rate];
  return rate ? vehicleClustering(rate, group.counts['vehicles'] ?? 0) : null;
}

const sealModes: ReadonlySet<string> = new Set(components.seal.modes);

function removedOf({ asking, evidence, groups, events, rate, comparison }: RateChecks): Doubt | null {
  const { mode } = asking.view;
  // A seal that came off unexplained was no failure of another part.
  if (events !== 'failures' || (mode !== null && !sealModes.has(mode))) return null;
  const at = comparison?.compared ?? 0;
  const estimate = groups[at]?.estimates[rate];
  if (!estimate) return null;
  const of = (name: TallyName) => sumByGroup(evidence.vehicles, name, groups.length)[at] as number;
  const { axis } = asking.view;
  return removedUnknownRate(
    { removed: of('removedUnknown'), events: of('failures'), watched: of(axis), factor: ageAxes[axis].factor },
    estimate,
    asking.words,
  );
}

/** Failures of the groups that a verdict on a comparison counts. */
export const comparedEvents = (groups: readonly Group[], counts: Float64Array): number[] =>
  comparable(groups, counts).map((group) => counts[group] as number);

/** Limits shown of an estimate by name, for the verdict on one group. */
export const limitsOf = (group: Group | undefined, name: string) => {
  const estimate = group?.estimates[name];
  return estimate ? shownLimits(estimate) : { lower: null, upper: null };
};
