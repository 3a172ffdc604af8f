import { shortCautions } from '../../../shared/cautions.ts';
import { shownLimits, type Doubt, type Estimate, type Finding } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import { failingFirst } from '../doubts/doubt.ts';
import { verdictOnOne } from '../firmness.ts';
import { seedOf } from '../fitted/fitted-lives.ts';
import { gather } from '../gather.ts';
import { componentWords } from '../words/component-words.ts';
import { renewalAnswer } from '../words/renewal-answer.ts';
import { renewalDoubts } from './renewal-doubts.ts';
import { renewalEvidence, type RenewalEvidence } from './renewal-evidence.ts';
import { renewalGroup, type RenewalGroup } from './renewal-group.ts';
import { failureCost } from '../fitted/failure-cost.ts';
import { renewalPlan, type Planning } from './renewal-plan.ts';
import { whatIfs } from './what-if.ts';

/**
 * When does planned renewal pay? The cost per mile of renewing at so many miles or at failure,
 * whichever is first, under the fitted life (Barlow & Proschan 1965, §4.2); no miles are named unless
 * the interval of the saving over running to failure excludes zero.
 */
export async function renewal(asking: Asking): Promise<Finding> {
  const { view, words, source, signal, onProgress, onFirst } = asking;
  const evidence = await renewalEvidence(asking);
  const planning: Planning = { view, words, seed: seedOf(source.account.fingerprint) };
  const told: RenewalGroup[] = [];
  for (const [at, own] of evidence.groups.entries()) {
    const key = evidence.keys.groups[at];
    if (!key) continue;
    if (evidence.groups.length > 1)
      onProgress?.({ done: at, of: evidence.groups.length, doing: `${key.label}: planning renewal` });
    await breathe(signal);
    const cost = failureCost(view, own.consequences, evidence.consequences);
    const also = own.intervals.slice(0, 1).map(({ miles }) => miles);
    told.push(renewalGroup(key, own, renewalPlan(own.fitted, cost, planning, also), evidence, asking));
  }
  const main = mainOf(told);
  const quick = renewalDoubts(asking, evidence, told, main);
  if (main?.plan.fits) onFirst?.(findingOf(asking, evidence, told, main, quick));
  const further = main?.plan.fits ? await whatIfs({ asking, evidence, main, planning }) : [];
  return findingOf(asking, evidence, told, main, failingFirst([...quick, ...further]));
}

/** The group the answer leans on: of those with a renewal named, else of all, the one with most failures. */
function mainOf(told: readonly RenewalGroup[]): RenewalGroup | null {
  const named = told.filter(({ plan }) => plan.reason === null);
  const most = [...(named.length > 0 ? named : told)].sort((a, b) => b.group.failures - a.group.failures);
  return most[0] ?? null;
}

function findingOf(
  { view, words, source }: Asking,
  { groups, lives }: RenewalEvidence,
  told: readonly RenewalGroup[],
  main: RenewalGroup | null,
  doubts: readonly Doubt[],
): Finding {
  const thing = componentWords[view.component];
  const { firmness, reason } = verdictOnOne(
    {
      ...{ failures: main?.group.failures ?? 0, event: thing.failure },
      limits: main ? shownLimits(main.group.estimates['renewalMiles'] as Estimate) : { lower: null, upper: null },
    },
    doubts,
  );
  const miles = groups.map(({ places }) => gather(lives.exposureMiles, places).reduce((sum, one) => sum + one, 0));
  return {
    ...{ question: 'renewal', title: 'When does planned renewal pay?' },
    ...renewalAnswer({ view, words, thing, told, main }),
    ...{ firmness, firmnessReason: reason, settings: view },
    data: {
      ...source.account,
      files: [...source.account.files],
      lives: groups.reduce((sum, { places }) => sum + places.length, 0),
      failures: groups.reduce((sum, { failures }) => sum + failures, 0),
      miles: miles.reduce((sum, one) => sum + one, 0),
    },
    groups: told.map(({ group }) => group),
    series: told.flatMap(({ series }) => [...series]),
    doubts: [...doubts],
    cautions: [notSafe(thing.many), ...shortCautions],
  };
}

const notSafe = (many: string): string =>
  `Miles of a planned renewal are about cost. Some ${many} fail before them: they clear none, and put off no inspection.`;
