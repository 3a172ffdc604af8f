import { shortCautions } from '../../../shared/cautions.ts';
import { shownLimits, type Finding, type Group } from '../../../shared/finding.ts';
import { horizonOf } from '../../../shared/view.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import { verdictOnOne } from '../firmness.ts';
import { placesWhere } from '../gather.ts';
import { lifeCurves } from '../life-curves.ts';
import { ended } from '../life-rows.ts';
import { componentWords } from '../words/component-words.ts';
import { detectionAnswer, detectionNotes, spanSays } from '../words/detection-answer.ts';
import { groupWords } from '../words/group-words.ts';
import { competingOutcomes } from './competing-outcomes.ts';
import { detectionDoubts } from './detection-doubts.ts';
import { detectionEvidence, type DetectionEvidence } from './detection-evidence.ts';
import { detectionEstimates, detectionGroup, seenBothWays, type Seen } from './detection-group.ts';
import { detectionSeries } from './detection-series.ts';

/**
 * Are leaks found late? Lives by the age at which a leak was found and by the ages between which it
 * can have begun, side by side; how often a check sees a leak; and what the looking alone would make
 * of groups that leak alike. By lubricant unless another cut is asked for.
 */
export async function detection(asking: Asking): Promise<Finding> {
  const { view, words, signal, onProgress } = asking;
  const evidence = await detectionEvidence(asking, view.by.length > 0 ? view.by : ['lubricant']);
  const { lives, groups: keys, aged } = evidence;
  const drawn = lifeCurves(
    lives,
    keys.map(({ label }) => label),
    view,
  );
  const together = { ...lives, group: new Int32Array(lives.rows) };
  const pooled = lifeCurves(together, ['all'], view);
  const about = { view, words };
  const all = seenBothWays(evidence, aged, { ...about, curve: pooled.curves[0], start: pooled.starts[0] ?? null });
  const seen: Seen[] = [];
  for (const [group, key] of keys.entries()) {
    onProgress?.({ done: group, of: keys.length, doing: `when leaks began ${groupWords(key)}`.trim() });
    await breathe(signal);
    const places = aged.filter((place) => lives.group[place] === group);
    const [curve, start] = [drawn.curves[group], drawn.starts[group] ?? null];
    seen.push(seenBothWays(evidence, places, { ...about, curve, start }));
  }
  const outcomes = competingOutcomes(evidence, view);
  const series = detectionSeries(evidence, drawn, seen, view);
  const groups = keys.map((_, group): Group => {
    const own = seen[group] as Seen;
    const estimates = { ...detectionEstimates(own, all, view), ...outcomes?.[group] };
    const made = detectionGroup(evidence, group, own, estimates);
    const begun = series.find((one) => one.name === 'begun' && one.group === made.label);
    const notes = [
      ...(begun ? [spanSays(begun.columns, horizonOf(view), words)] : []),
      ...detectionNotes(own, estimates['foundByHorizonLagAlone']),
    ];
    return notes.length === 0 ? made : { ...made, notes };
  });
  return findingOf(asking, evidence, all, groups, series);
}

function findingOf(
  asking: Asking,
  evidence: DetectionEvidence,
  all: Seen,
  groups: Group[],
  series: Finding['series'],
): Finding {
  const { view, words, source } = asking;
  const { lives, aged, by } = evidence;
  const failures = placesWhere(aged.length, (at) => lives.ended[aged[at] as number] === ended.failed).length;
  const doubts = detectionDoubts({ asking, evidence, all, groups });
  const thing = componentWords[view.component];
  const { firmness, reason } = verdictOnOne(
    { failures, limits: shownLimits(all.begun.byHorizon), event: thing.failure },
    doubts,
  );
  return {
    ...{ question: 'detection', title: 'Are leaks found late?' },
    ...detectionAnswer({ view, words, thing, all, groups, failures }),
    ...{ firmness, firmnessReason: reason, settings: { ...view, by } },
    data: {
      ...source.account,
      files: [...source.account.files],
      ...{ lives: aged.length, failures },
      miles: groups.reduce((sum, { miles }) => sum + miles, 0),
    },
    ...{ groups, series, doubts, cautions: shortCautions },
  };
}
