import { shortCautions } from '../../shared/cautions.ts';
import type { Doubt, Finding } from '../../shared/finding.ts';
import { shownLimits } from '../../shared/finding.ts';
import type { Component } from '../../shared/vocabulary.ts';
import type { SurvivalCurve } from '../statistics/index.ts';
import type { Asking } from './asking.ts';
import { comparable } from './comparison.ts';
import { weibullMisses } from './doubts/weibull-fit.ts';
import { verdictOnComparison, verdictOnOne, type Verdict } from './firmness.ts';
import { compareLives } from './life-comparison.ts';
import { lifeCurves } from './life-curves.ts';
import { fittedOf, lifeDoubts, type LifeChecks } from './life-doubts.ts';
import { lifeEvidence } from './life-evidence.ts';
import { lifeGroups, mainEstimate } from './life-groups.ts';
import { ageTicks, atRiskSeries, curveSeries, drawnGroups } from './life-series.ts';
import { carriersOf } from './life-carriers.ts';
import { componentWords } from './words/component-words.ts';
import { sealLifeAnswer } from './words/seal-life-answer.ts';

const titles: Readonly<Record<Component, string>> = {
  seal: 'How long do seals last?',
  gasket: 'How long do gaskets last?',
  bearing: 'How long do bearings last?',
};

/**
 * How long do seals (gaskets, bearings) last? Product-limit curves by miles, or months, since installation with
 * late entry (Klein & Moeschberger §4.2, 4.6); lives of unknown start have no age and stand beside.
 */
export async function sealLife(asking: Asking): Promise<Finding> {
  const { view, signal } = asking;
  const evidence = await lifeEvidence(asking);
  signal?.throwIfAborted();
  const labels = evidence.keys.groups.map(({ label }) => label);
  const drawn = lifeCurves(evidence.lives, labels, view);
  const { unit, units } = evidence.lives;
  const vehicles = carriersOf(drawn.rows, unit, units);
  const { groups, fits } = lifeGroups(evidence.keys.groups, evidence.lives, drawn, vehicles, asking);
  const compared = compareLives(view, evidence.keys.groups, drawn);
  signal?.throwIfAborted();
  return findingOf({ asking, evidence, drawn, vehicles, groups, fits, ...compared });
}

function findingOf(checks: LifeChecks): Finding {
  const { asking, evidence, groups, comparison, worstFirst } = checks;
  const { view, words, source } = asking;
  const thing = componentWords[view.component];
  const doubts = lifeDoubts(checks);
  const oneShape = !fittedOf(checks).some(weibullMisses);
  const { firmness, reason } = verdict(checks, doubts);
  const { lives } = evidence;
  return {
    question: 'seal-life',
    title: titles[view.component],
    ...sealLifeAnswer({ view, words, thing, groups, comparison, worstFirst, oneShape }),
    ...{ firmness, firmnessReason: reason, settings: view },
    data: {
      ...source.account,
      files: [...source.account.files],
      lives: lives.rows,
      failures: lives.ended.reduce((sum, code) => sum + (code === 1 ? 1 : 0), 0),
      miles: lives.exposureMiles.reduce((sum, miles) => sum + miles, 0),
    },
    ...{ groups: [...groups], series: seriesOf(checks), doubts },
    cautions: shortCautions,
  };
}

function verdict({ groups, comparison, asking }: LifeChecks, doubts: readonly Doubt[]): Verdict {
  const { failure } = componentWords[asking.view.component];
  const [only] = groups;
  if (asking.view.by.length === 0 && only)
    return verdictOnOne(
      { failures: only.failures, limits: shownLimits(mainEstimate(only.estimates)), event: failure },
      doubts,
    );
  const events = groups.map(({ failures }) => failures);
  const failures = comparison ? comparable(groups, events).map((group) => events[group] as number) : [];
  return verdictOnComparison(
    { failures, event: failure, pValue: comparison?.pValue ?? null, ratio: comparison?.ratio ?? null },
    doubts,
  );
}

function seriesOf({ drawn, groups, asking }: LifeChecks): Finding['series'] {
  const shown = drawnGroups(groups.map(({ lives }) => lives)).filter((group) => drawn.starts[group] != null);
  const longest = shown.reduce((most, group) => Math.max(most, drawn.curves[group]?.time.at(-1) ?? 0), 0);
  return [
    ...shown.map((group) =>
      curveSeries(drawn.curves[group] as SurvivalCurve, drawn.starts[group] as number, asking.view),
    ),
    ...atRiskSeries(drawn.rows, shown, ageTicks(longest, asking.view.axis), asking.view.axis),
  ];
}
