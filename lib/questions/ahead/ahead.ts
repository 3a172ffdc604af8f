import { shortCautions } from '../../../shared/cautions.ts';
import { shownLimits, type Estimate, type Finding } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import { noEstimate } from '../estimate.ts';
import { firmnessRule, verdictOnOne } from '../firmness.ts';
import { seedOf } from '../fitted/fitted-lives.ts';
import { gather } from '../gather.ts';
import { ended } from '../life-rows.ts';
import { aheadAnswer } from '../words/ahead-answer.ts';
import { componentWords } from '../words/component-words.ts';
import { aheadDoubts } from './ahead-doubts.ts';
import { aheadEvidence, type AheadEvidence } from './ahead-evidence.ts';
import { aheadGroup, forecastAhead, totalsOf, type AheadForecast } from './forecast.ts';
import { inspectionList } from './inspection-list.ts';
import { fittedKind, kindsOf, type FittedKind } from './kinds.ts';
import { teardownSample } from './teardown-sample.ts';

/**
 * What is coming? Failures, soaked linings and their cost among the lives now running, each given its
 * age and the miles ahead of its vehicle (Meeker & Escobar 1998, §12.7), which wheel ends to look at
 * first, and which removed parts to cut open.
 */
export async function ahead(asking: Asking): Promise<Finding> {
  const evidence = await aheadEvidence(asking);
  const { lives, aged, running } = evidence;
  const failures = aged.reduce((sum, place) => sum + (lives.ended[place] === ended.failed ? 1 : 0), 0);
  const reason = reasonAgainst(evidence, failures);
  if (reason !== null) return refused(asking, evidence, failures, reason);
  const kinds = await fittedKinds(evidence, asking);
  if (typeof kinds === 'string') return refused(asking, evidence, failures, kinds);
  const seed = seedOf(asking.source.account.fingerprint);
  const forecast = forecastAhead(evidence, kinds, seed);
  const named = [...evidence.keys.groups.keys()];
  const groups = named.flatMap((group) => aheadGroup(evidence, forecast, group, asking) ?? []);
  const [first] = groups;
  // Drawn once: the only row of the table and the answer above it are then the same numbers.
  const { estimates } =
    groups.length === 1 && first?.lives === running.length ? first : ofAllTogether(evidence, kinds, seed, asking);
  const total = estimates['expectedFailures'] as Estimate;
  const doubts = aheadDoubts({ asking, evidence, kinds, forecast, total, groups, failures });
  const lists = [await inspectionList(evidence, forecast, asking), await teardownSample(evidence, asking, seed)].filter(
    (list) => list !== null,
  );
  const { view, words } = asking;
  const thing = componentWords[view.component];
  const { firmness, reason: firmnessReason } = verdictOnOne(
    { failures, limits: shownLimits(total), event: thing.failure },
    doubts,
  );
  return {
    ...base(asking, evidence, failures),
    ...aheadAnswer({
      ...{ view, words, thing, running: running.length, failures, estimates, groups },
      pace: view.ahead === 'miles' ? null : evidence.paces.median,
      highestChance: running.reduce((highest, place) => Math.max(highest, forecast.chance[place] as number), 0),
    }),
    ...{ firmness, firmnessReason, groups, doubts, lists },
    series: chanceSeries(evidence, forecast),
  };
}

/** Why nothing is told ahead; null where something is. */
function reasonAgainst({ running, aheadMiles }: AheadEvidence, failures: number): string | null {
  if (running.length === 0) return 'no running lives of known start match this choice';
  if (failures < firmnessRule.thinFailures)
    return `fewer than ${firmnessRule.thinFailures} failures tell how long lives are`;
  return running.every((place) => Number.isNaN(aheadMiles[place]))
    ? 'no miles a day of any vehicle are known; asked in miles it can be told'
    : null;
}

/** Drawn as if nothing told them apart: whatever they are cut by, the whole is the same numbers. */
function ofAllTogether(evidence: AheadEvidence, kinds: readonly FittedKind[], seed: number, asking: Asking) {
  const { lives, keys } = evidence;
  const all = { label: 'all', by: {}, lives: lives.rows };
  const whole = {
    ...{ ...evidence, keys: { ...keys, groups: [all] } },
    lives: { ...lives, group: new Int32Array(lives.rows) },
  };
  return totalsOf(whole, forecastAhead(whole, kinds, seed), [0], asking);
}

async function fittedKinds(evidence: AheadEvidence, asking: Asking): Promise<FittedKind[] | string> {
  const fitted: FittedKind[] = [];
  const kinds = kindsOf(evidence);
  for (const [done, kind] of kinds.entries()) {
    asking.onProgress?.({ done, of: kinds.length, doing: `${kind.label}: fitting lives` });
    await breathe(asking.signal);
    const own = fittedKind(evidence, kind, asking.view);
    if (own === null && kind.running.length > 0) return `the lives of ${kind.label} could not be fitted`;
    if (own !== null) fitted.push(own);
  }
  return fitted;
}

function base(
  { view, source }: Asking,
  { running, lives }: AheadEvidence,
  failures: number,
): Pick<Finding, 'question' | 'title' | 'settings' | 'cautions' | 'data'> {
  return {
    ...{ question: 'ahead', title: 'What is coming?', settings: view, cautions: [notCleared, ...shortCautions] },
    data: {
      ...source.account,
      files: [...source.account.files],
      ...{ lives: running.length, failures },
      miles: gather(lives.exposureMiles, running).reduce((sum, one) => sum + one, 0),
    },
  };
}

const notCleared = 'A low chance, or a place off the list, clears no wheel end: whoever inspects looks at all of them.';

function refused(asking: Asking, evidence: AheadEvidence, failures: number, reason: string): Finding {
  const { view, words } = asking;
  const about = { level: view.level, unit: 'failures', method: 'fitted life given the age now' };
  const expectedFailures = noEstimate({ ...about, reason });
  const thing = componentWords[view.component];
  const told = {
    view,
    words,
    thing,
    running: evidence.running.length,
    failures,
    groups: [],
    pace: null,
    highestChance: 0,
  };
  return {
    ...base(asking, evidence, failures),
    ...aheadAnswer({ ...told, estimates: { expectedFailures } }),
    ...{ firmness: 'too few', firmnessReason: reason, series: [], doubts: [] },
    groups: [
      {
        ...{ label: 'all', by: {}, lives: evidence.running.length, failures, miles: 0, firmness: 'too few' },
        ...{ counts: {}, estimates: { expectedFailures } },
      },
    ],
  };
}

/** How chances are spread: so many running lives, and the failures expected of them, by chance. */
function chanceSeries({ running }: AheadEvidence, { chance }: AheadForecast): Finding['series'] {
  const edges = [0, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1];
  const [lives, expected] = [edges.slice(1).map(() => 0), edges.slice(1).map(() => 0)];
  for (const place of running) {
    const own = chance[place] as number;
    const at = Math.max(0, edges.findIndex((edge, index) => index > 0 && own <= edge) - 1);
    lives[at] = (lives[at] ?? 0) + 1;
    expected[at] = (expected[at] ?? 0) + own;
  }
  return [
    { name: 'chances', group: 'all', columns: { from: edges.slice(0, -1), to: edges.slice(1), lives, expected } },
  ];
}
