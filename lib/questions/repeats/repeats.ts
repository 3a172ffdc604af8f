import { shortCautions } from '../../../shared/cautions.ts';
import { shownLimits, type Doubt, type Finding, type Group } from '../../../shared/finding.ts';
import { coxRegression } from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { noRatio, ratioOfTerm, tooFewFor, type Ratio } from '../causes/ratios.ts';
import { doubt, failingFirst } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { leftOut } from '../doubts/left-out.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles } from '../doubts/shares.ts';
import { verdictOnComparison } from '../firmness.ts';
import { gather } from '../gather.ts';
import { ended } from '../life-rows.ts';
import { componentWords } from '../words/component-words.ts';
import { repeatsAnswer } from '../words/repeats-answer.ts';
import { count, counted } from '../words/wording.ts';
import { before } from './earlier-lives.ts';
import { meanByHorizon, meanFailures, meanSeries } from './mean-failures.ts';
import { repeatsEvidence, type RepeatsEvidence } from './repeats-evidence.ts';
import { afterFailure, afterRenewal, repeatsGroups } from './repeats-groups.ts';

/**
 * Do repaired wheel ends fail again? Lives that follow a failure at the same wheel end against those
 * that follow a renewal without one, lives by their number there, and the mean number of failures a
 * wheel end has had by what was watched of it.
 */
export async function repeats(asking: Asking): Promise<Finding> {
  const { view, words, source } = asking;
  const evidence = await repeatsEvidence(asking);
  const told = repeatsGroups(evidence, asking);
  const ratio = ratioAfterFailure(evidence, view.level);
  const curve = meanFailures(evidence, view);
  const mean = meanByHorizon(curve, view);
  const groups = told.groups.map((group): Group => {
    return group.label === afterFailure
      ? { ...group, estimates: { ...group.estimates, hazardRatio: ratio.estimate } }
      : group;
  });
  const { lives, aged } = evidence;
  const thing = componentWords[view.component];
  const sides = [afterFailure, afterRenewal].map((label) => ({
    label,
    failures: groups.find((group) => group.label === label)?.failures ?? 0,
  }));
  const doubts = repeatsDoubts(asking, evidence, sides);
  const event = thing.failure;
  const { firmness, reason } = verdictOnComparison(
    {
      ...{ failures: ratio.estimate.value === null ? [] : sides.map(({ failures }) => failures), event },
      ...{ pValue: ratio.pValue, ratio: shownLimits(ratio.estimate) },
    },
    doubts,
  );
  return {
    ...{ question: 'repeats', title: 'Do repaired wheel ends fail again?' },
    ...repeatsAnswer({ view, words, thing, groups, ratio, mean }),
    ...{ firmness, firmnessReason: reason, settings: { ...view, by: [] } },
    data: {
      ...source.account,
      files: [...source.account.files],
      lives: aged.length,
      failures: aged.reduce((sum, place) => sum + (lives.ended[place] === ended.failed ? 1 : 0), 0),
      miles: gather(lives.exposureMiles, aged).reduce((sum, one) => sum + one, 0),
    },
    groups,
    series: [...told.series, ...meanSeries(curve, view)],
    ...{ doubts, cautions: shortCautions },
  };
}

/** Adjusted hazard after a failure over that after a renewal without one. */
function ratioAfterFailure({ lives, following, before: earlier, adjustment }: RepeatsEvidence, level: number): Ratio {
  const about = { level, method: 'Cox, late entry, what else is known taken into account' };
  const codes = Int32Array.from(following, (place) => (earlier[place] === before.failed ? 1 : 0));
  const event = Uint8Array.from(following, (place) => (lives.ended[place] === ended.failed ? 1 : 0));
  const failures = (code: number) => event.reduce((sum, one, at) => sum + (codes[at] === code ? one : 0), 0);
  const few = tooFewFor(failures(1), failures(0));
  if (few !== null) return noRatio(about, few);
  const { covariates, strata, cluster } = adjustment;
  const fit = coxRegression(
    {
      ...{ entry: gather(lives.entry, following), exit: gather(lives.exit, following), event, strata, cluster },
      covariates: { ...covariates, before: { levels: ['renewal', 'failure'], codes } },
    },
    { level, concordance: false, limitsOf: ['before=failure'] },
  );
  return ratioOfTerm(fit, 'before=failure', about);
}

function repeatsDoubts(
  { source, view }: Asking,
  evidence: RepeatsEvidence,
  sides: readonly { readonly label: string; readonly failures: number }[],
): Doubt[] {
  const { lives, aged, following, leftOut: out, before: earlier } = evidence;
  const estimated = aged.reduce((sum, place) => sum + (lives.extrapolated[place] as number), 0);
  const untold = aged.filter((place) => earlier[place] === before.untold).length;
  return failingFirst([
    fewFailures(sides, componentWords[view.component].failure),
    doubt(
      'The same wheel ends',
      'cannot-tell',
      'A wheel end that failed once may be one that is worked harder or worn at the spindle: that it fails again need not lie in the repair.',
      'what the repair found at the spindle and the hub, written down',
    ),
    doubt(
      'Nothing before',
      'holds',
      `${counted(untold, 'life', 'lives')} follow none in these records and are in neither of the first two groups; ${count(following.length)} are.`,
      'records that reach further back',
    ),
    view.axis === 'miles' ? estimatedMiles({ some: estimated, all: aged.length }) : null,
    setAsideRows(source.account),
    leftOut(out),
  ]);
}
