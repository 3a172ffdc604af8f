import { shortCautions } from '../../../shared/cautions.ts';
import { shownLimits, type Finding, type Series } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { outcomeAsked } from '../causes/outcome.ts';
import { corrected } from '../comparison.ts';
import { verdictOnComparison, type Verdict } from '../firmness.ts';
import { componentWords } from '../words/component-words.ts';
import { doseAnswer } from '../words/dose-answer.ts';
import { emphasised } from '../words/emphasised.ts';
import { doseDoubts, failuresBySide } from './dose-doubts.ts';
import { doseEvidence, type DoseEvidence } from './dose-evidence.ts';
import { hazardOverValue, outsideRatios } from './dose-fits.ts';
import { doseGroups } from './dose-groups.ts';
import { roundingOf } from './rounding.ts';
import { nominalOf } from './value-window.ts';

const title = 'How much does the measured value matter?';
/** Values told one by one at most, those most often read. */
const mostValues = 200;

/**
 * How much does the measured value matter? Rate and adjusted hazard over the torque or end play that
 * the installing job wrote down, with the procedure's window; `view.deviation` says which value.
 */
export async function dose(asking: Asking): Promise<Finding> {
  const { view, source } = asking;
  const evidence = await doseEvidence(asking);
  const settings: Finding['settings'] = { ...view, by: [] };
  const base = { question: 'dose', title, settings, cautions: shortCautions } as const;
  const account = { ...source.account, files: [...source.account.files] };
  if (typeof evidence === 'string') {
    const data = { ...account, lives: 0, failures: 0, miles: 0 };
    return {
      ...{ ...base, ...emphasised(`**Cannot be told**: ${evidence}.`), data },
      ...{ firmness: 'too few', firmnessReason: 'no measured values', groups: [], series: [], doubts: [] },
    };
  }
  const event = eventOf(view);
  const groups = doseGroups(evidence, asking).map(({ group }) => group);
  const outside = outsideRatios(evidence, view.level);
  const doubts = doseDoubts(asking, evidence, event);
  const failures = failuresBySide(evidence);
  const { firmness, reason } = verdict(evidence, outside, event, doubts);
  const total = (column: Float64Array | Uint8Array) =>
    Array.from(column).reduce((sum: number, one: number) => sum + one, 0);
  return {
    ...base,
    ...doseAnswer({ evidence, words: asking.words, ...outside, rounding: roundingOf(evidence), failures }),
    ...{ firmness, firmnessReason: reason, doubts, groups },
    data: { ...account, lives: evidence.value.length, failures: total(evidence.event), miles: total(evidence.miles) },
    series: [...hazardOverValue(evidence, view.level), windowSeries(evidence), readingsSeries(evidence)],
  };
}

function eventOf(view: Asking['view']): string {
  const { kind, component } = outcomeAsked(view);
  if (kind === 'any') return 'failure';
  return kind === 'lining' ? 'soaked lining' : componentWords[component].failure;
}

/** The side of the window that is less likely chance, both sides allowed for. */
function verdict(
  evidence: DoseEvidence,
  { under, over }: ReturnType<typeof outsideRatios>,
  event: string,
  doubts: Finding['doubts'],
): Verdict {
  const [inside, below, above] = failuresBySide(evidence).map(({ failures }) => failures) as [number, number, number];
  const sides = [
    { ratio: under, failures: below },
    { ratio: over, failures: above },
  ].filter(({ ratio }) => ratio.estimate.value !== null);
  const first = sides.sort((a, b) => (a.ratio.pValue ?? 1) - (b.ratio.pValue ?? 1))[0];
  if (!first) return verdictOnComparison({ failures: [], event, pValue: null, ratio: null }, doubts);
  return verdictOnComparison(
    {
      ...{ failures: [inside, first.failures], event },
      pValue: corrected(first.ratio.pValue, sides.length),
      ratio: shownLimits(first.ratio.estimate),
    },
    doubts,
  );
}

/** Its group says what was measured, and so in which unit all of the figure stands. */
const windowSeries = ({ window, quantity }: DoseEvidence): Series => ({
  ...{ name: 'window', group: quantity },
  columns: { least: [window.least], most: [window.most], nominal: [nominalOf(window)] },
});

/** Lives and failures at each value written down, for the heaps to be seen. */
function readingsSeries({ value, event }: DoseEvidence): Series {
  const counts = new Map<number, { lives: number; failures: number }>();
  value.forEach((own, at) => {
    const known = counts.get(own) ?? { lives: 0, failures: 0 };
    counts.set(own, { lives: known.lives + 1, failures: known.failures + (event[at] as number) });
  });
  const kept = [...counts]
    .sort((a, b) => b[1].lives - a[1].lives)
    .slice(0, mostValues)
    .sort((a, b) => a[0] - b[0]);
  return {
    ...{ name: 'readings', group: 'all' },
    columns: {
      value: kept.map(([own]) => own),
      lives: kept.map(([, { lives }]) => lives),
      failures: kept.map(([, { failures }]) => failures),
    },
  };
}
