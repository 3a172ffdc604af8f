import { shortCautions } from '../../../shared/cautions.ts';
import type { Doubt, Finding, Series } from '../../../shared/finding.ts';
import { earlyOf } from '../../../shared/view.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import type { Asking } from '../asking.ts';
import { causesAnswer } from '../words/causes-answer.ts';
import { componentWords } from '../words/component-words.ts';
import { causesDoubts, recordDoubts } from './causes-doubts.ts';
import { causesEvidence, type CausesEvidence } from './causes-evidence.ts';
import { causesVerdict } from './causes-verdict.ts';
import { criticalCases } from './critical-cases.ts';
import { depthOf } from './depth.ts';
import { firstRanking, type CrudeOf } from './first-ranking.ts';
import { keptCrude } from './kept-crude.ts';
import { lineNotes } from './line-notes.ts';
import { crudeRatios } from './ranking-ratios.ts';
import { firstLookDoubt, sampledEvidence } from './sampled-evidence.ts';
import { toGroup, type RankedGroup } from './ranked-group.ts';
import { rankedOrder } from './ranked-order.ts';
import { restOfRanking, type Beside } from './rest-of-ranking.ts';
import { teardownFindings } from './teardown-findings.ts';

const titles: Readonly<Record<Component, string>> = {
  seal: 'Which deviations go with shorter seal life?',
  gasket: 'Which deviations go with shorter gasket life?',
  bearing: 'Which deviations go with shorter bearing life?',
};
const titlesFound = {
  any: 'Which deviations go with failures at the wheel end?',
  lining: 'Which deviations go with soaked linings?',
} as const;

/**
 * Which deviations cost life? Every deviation (and value of a chosen attribute) recorded at
 * installation against lives without it: Cox models with late entry, what else is known taken into
 * account, within shops, vehicles as clusters; replacement lives of known start only. Of very many
 * lives first a look at some, then the ranking, then what takes longer: early and later, within
 * vehicles, failures in excess, shadows.
 */
export async function causes(asking: Asking): Promise<Finding> {
  const { source, view, words, onFirst } = asking;
  const evidence = await causesEvidence(asking);
  const records = recordDoubts(asking, evidence);
  const cases = await criticalCases(asking, evidence);
  const teardown = await teardownFindings(asking);
  const finding = ({ of, groups, beside }: Ranked, doubts: Doubt[], series: readonly Series[]): Finding => {
    const ordered = rankedOrder(groups);
    for (const group of ordered) {
      const { deviation } = group.compared.exposure;
      const notes = lineNotes(group, beside.get(group), cases.get(deviation ?? ''), earlyOf(view), words);
      group.notes.splice(0, Infinity, ...notes);
    }
    return findingOf(asking, of, ordered, doubts, series);
  };
  const ranked = async (of: CausesEvidence, crude: CrudeOf): Promise<Ranked> => ({
    ...{ of, beside: new Map() },
    groups: of.rows.length === 0 || !of.lives.event.includes(1) ? [] : await firstRanking(asking, of, crude),
  });
  const some = onFirst ? sampledEvidence(evidence) : null;
  if (some !== null) {
    const look = await ranked(some, (compared) => crudeRatios(compared, view.level));
    onFirst?.(finding(look, [firstLookDoubt(some, evidence), ...records], teardown));
  }
  const first = await ranked(evidence, keptCrude(source, view));
  const { groups } = first;
  onFirst?.(finding(first, records, teardown));
  const { beside, shadows } = await restOfRanking(asking, evidence, groups);
  const doubts = causesDoubts(asking, evidence, { groups, beside }, shadows, records);
  const depth = await depthOf(asking, evidence, groups);
  return finding({ ...first, beside }, doubts, [...teardown, ...depth]);
}

/** The lines ranked from some evidence, and what stands beside them so far. */
interface Ranked {
  readonly of: CausesEvidence;
  readonly groups: readonly RankedGroup[];
  readonly beside: ReadonlyMap<RankedGroup, Beside>;
}

function findingOf(
  { view, source }: Asking,
  { asked, lives, adjustment }: CausesEvidence,
  ordered: readonly RankedGroup[],
  doubts: Doubt[],
  series: readonly Series[],
): Finding {
  const groups = ordered.map(toGroup);
  const thing = componentWords[asked.component];
  const failures = lives.event.reduce((sum, one) => sum + one, 0);
  const own = asked.kind === 'component';
  const said = causesAnswer({
    ...{ view, groups, lives: lives.exit.length },
    happens: own
      ? `${thing.many} ${thing.failure === 'leak' ? 'leak' : 'fail'}`
      : asked.kind === 'any'
        ? 'wheel ends fail'
        : 'linings are soaked',
    failure: own ? thing.failure : asked.kind === 'any' ? 'failure' : 'soaked lining',
    ...{ adjusted: Object.keys(adjustment.covariates), within: adjustment.strataOf },
  });
  return {
    question: 'causes',
    title: asked.kind === 'component' ? titles[asked.component] : titlesFound[asked.kind],
    ...said,
    ...causesVerdict(ordered[0], groups[0], doubts),
    settings: view,
    data: {
      ...source.account,
      files: [...source.account.files],
      ...{ lives: lives.exit.length, failures, miles: lives.miles.reduce((sum, miles) => sum + miles, 0) },
    },
    ...{ groups, series: [...series], doubts, cautions: shortCautions },
  };
}
