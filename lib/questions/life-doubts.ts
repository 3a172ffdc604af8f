import { horizonOf } from '../../shared/view.ts';
import { shownLimits, type Doubt, type Estimate, type Group } from '../../shared/finding.ts';
import type { Asking } from './asking.ts';
import { comparedDeviation, eventsOfKnown } from './comparison.ts';
import { adjustmentMissing } from './doubts/adjustment-missing.ts';
import type { BoundedGroups } from './doubts/bounded-share.ts';
import { crossingHazards } from './doubts/crossing-hazards.ts';
import { estimatedLives } from './doubts/estimated-lives.ts';
import { detectionLag } from './doubts/detection-lag.ts';
import { failingFirst } from './doubts/doubt.ts';
import { fewFailures } from './doubts/few-failures.ts';
import { lateEntries } from './doubts/late-entries.ts';
import { leaveOneOut, type Carried } from './doubts/leave-one-out.ts';
import { leftOut } from './doubts/left-out.ts';
import { likeForLike } from './doubts/like-for-like.ts';
import { manyComparisons } from './doubts/many-comparisons.ts';
import { reach } from './doubts/reach.ts';
import { removedUnknown } from './doubts/removed-unknown.ts';
import { safetyCritical } from './doubts/safety-critical.ts';
import { seenLeaks } from './doubts/seen-leaks.ts';
import { setAsideRows } from './doubts/set-aside-rows.ts';
import { estimatedMiles, inferredFailures, unknownStarts } from './doubts/shares.ts';
import { unknownExposure } from './doubts/unknown-exposure.ts';
import { vehicleClustering } from './doubts/vehicle-clustering.ts';
import { weibullFit, type Fitted } from './doubts/weibull-fit.ts';
import { carriersOf } from './life-carriers.ts';
import type { LivesCompared } from './life-comparison.ts';
import { keptRows } from './curve-rows.ts';
import { sharesIf, type LifeCurves } from './life-curves.ts';
import { percent } from './words/share-words.ts';
import { ratioText } from './words/wording.ts';
import type { LifeEvidence } from './life-evidence.ts';
import { mainEstimate, type LifeGroups } from './life-groups.ts';
import { mostCurves } from './life-series.ts';
import { unknownBounds } from './life-unknown-bounds.ts';
import { componentWords } from './words/component-words.ts';

/** Everything the doubts about life curves look at. */
export interface LifeChecks extends LivesCompared, LifeGroups {
  readonly asking: Asking;
  readonly evidence: LifeEvidence;
  readonly drawn: LifeCurves;
  readonly vehicles: Carried;
}

const total = (groups: readonly Group[], name: string): number =>
  groups.reduce((sum, { counts }) => sum + (counts[name] ?? 0), 0);

/** The doubts of a life curve, failing first. */
export function lifeDoubts(checks: LifeChecks): Doubt[] {
  const { asking, evidence, groups, comparison, drawn, pair } = checks;
  const { view, words, source } = asking;
  const { lives, mix } = evidence;
  const thing = componentWords[view.component];
  const labels = groups.map(({ label }) => label);
  const shares = groups.map(({ estimates }) => estimates['failedByHorizonHadNoneBeenRenewed'] as Estimate);
  const bounded: BoundedGroups = { labels, shares, pair: comparison, horizon: horizonOf(view), words };
  const estimated = lives.estimated.reduce((sum, one) => sum + one, 0);
  const byMiles = view.axis === 'miles';
  return failingFirst([
    fewFailures(
      eventsOfKnown(
        groups,
        groups.map(({ failures }) => failures),
      ),
      thing.failure,
    ),
    comparedDeviation(view) === null ? null : unknownExposure(unknownBounds(checks)),
    likeForLike(comparison, mix, labels),
    ...carriers(checks),
    crossingHazards(pair, view.level, words),
    manyComparisons(comparison),
    safetyCritical(view, evidence.cases, words),
    detectionLag(drawn.rows, lives, view, bounded, thing),
    removedUnknown(drawn, bounded, thing),
    seenLeaks(drawn.rows, lives, view, bounded, thing),
    lateEntries(drawn.rows, drawn.starts, thing, words),
    unknownStarts({ some: total(groups, 'unknownStart'), all: lives.rows }, thing.many),
    reach(
      drawn.curves.filter((_, group) => drawn.starts[group] != null),
      horizonOf(view),
      words,
    ),
    weibullFit(fittedOf(checks)),
    inferredFailures({
      some: total(groups, 'inferredFailures'),
      all: groups.reduce((sum, { failures }) => sum + failures, 0),
    }),
    byMiles ? estimatedMiles({ some: estimated, all: lives.rows }) : null,
    byMiles ? estimatedOf(checks, shares) : null,
    clusteringOf(checks),
    setAsideRows(source.account),
    leftOut(evidence.leftOut, Math.max(0, groups.filter(({ lives: some }) => some > 0).length - mostCurves)),
    adjustmentMissing(view.adjust),
  ]);
}

/** The share failed by the horizon (of a pair: its ratio) without the lives whose miles are estimated. */
function estimatedOf({ asking, evidence, drawn, comparison }: LifeChecks, shares: readonly Estimate[]): Doubt | null {
  const { view, words } = asking;
  const isEstimated = (row: number) => evidence.lives.extrapolated[drawn.rows.source[row] as number] === 1;
  const lives = drawn.rows.source.reduce((sum, _, row) => sum + (isEstimated(row) ? 1 : 0), 0);
  if (lives === 0) return null;
  const left = sharesIf(
    keptRows(drawn.rows, (row) => !isEstimated(row)),
    view,
  );
  const by = `by ${words.age(horizonOf(view))}`;
  if (!comparison) {
    const worst = shares.findIndex(({ value }) => value !== null);
    const share = shares[worst];
    const about = { lives, answer: share?.value ?? null, without: left[worst] ?? null, write: percent };
    return estimatedLives({ ...about, limits: share ? shownLimits(share) : noLimits, says: `would have failed ${by}` });
  }
  const ratio = (values: readonly (number | null)[]) => {
    const [one, other] = [values[comparison.compared] ?? null, values[comparison.reference] ?? null];
    return one === null || !other ? null : one / other;
  };
  const answer = ratio(shares.map(({ value }) => value));
  return estimatedLives({
    lives,
    answer,
    without: ratio(left),
    limits: noLimits,
    write: ratioText,
    says: `to 1 would the shares failed ${by} stand`,
  });
}

const noLimits = { lower: null, upper: null };

const standsOn = ({ comparison, groups }: LifeChecks) => comparison ?? (groups.length === 1 ? 0 : null);

function carriers(checks: LifeChecks): (Doubt | null)[] {
  const at = standsOn(checks);
  if (at === null) return [];
  const { by, axis } = checks.asking.view;
  const { shop, shops } = checks.evidence.lives;
  return [
    by.includes('shop')
      ? null
      : leaveOneOut('shop', carriersOf(checks.drawn.rows, shop, shops.length), at, axis, shops),
    by.includes('unit_id') ? null : leaveOneOut('vehicle', checks.vehicles, at, axis),
  ];
}

export function fittedOf({ fits, drawn, groups }: Pick<LifeChecks, 'fits' | 'drawn' | 'groups'>): Fitted[] {
  return fits.flatMap((fit, group): Fitted[] => {
    const start = drawn.starts[group] ?? null;
    const curve = drawn.curves[group];
    return fit && curve && start !== null ? [{ label: groups[group]?.label ?? '', curve, start, fit }] : [];
  });
}

function clusteringOf(checks: LifeChecks): Doubt | null {
  const at = standsOn(checks);
  const group = checks.groups[typeof at === 'number' ? at : (at?.compared ?? -1)];
  return group ? vehicleClustering(mainEstimate(group.estimates), group.counts['vehicles'] ?? 0) : null;
}
