import type { Series } from '../../../shared/finding.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import { turnbull } from '../../statistics/index.ts';
import { curveSeries } from '../life-series.ts';
import type { LifeCurves } from '../life-curves.ts';
import type { DetectionEvidence } from './detection-evidence.ts';
import type { Seen } from './detection-group.ts';
import { onsetLives } from './onset-lives.ts';

const mostPoints = 400;
const fittedPoints = 60;
/** The climb of more lives than this takes longer than a reader waits; the fitted curve stands alone then. */
const mostClimbed = 200_000;

/** By group the curve of finding, the curve of beginning without a shape assumed, and the fitted one. */
export function detectionSeries(
  evidence: DetectionEvidence,
  drawn: LifeCurves,
  seen: readonly Seen[],
  view: View,
): Series[] {
  return evidence.groups.flatMap(({ label }, group) => {
    const [curve, start, own] = [drawn.curves[group], drawn.starts[group] ?? null, seen[group]];
    if (!curve || start === null || !own) return [];
    return [
      { ...curveSeries(curve, start, view), name: 'found' },
      ...begunSeries(evidence, own, label),
      ...fittedSeries(own, label, view),
    ];
  });
}

/** Where within an interval leaks began the data do not say: survival before it and after it. */
function begunSeries(evidence: DetectionEvidence, { places, begun }: Seen, group: string): Series[] {
  if (begun.fit === null || places.length > mostClimbed) return [];
  const { intervals, survival } = turnbull(onsetLives(evidence, places, false));
  const kept = thinned(survival.length);
  const finite = (value: number | undefined) => (value !== undefined && Number.isFinite(value) ? value : null);
  return [
    {
      ...{ name: 'begun', group },
      columns: {
        from: kept.map((at) => finite(intervals.lower[at])),
        to: kept.map((at) => finite(intervals.upper[at])),
        survivalBefore: kept.map((at) => (at === 0 ? 1 : (survival[at - 1] as number))),
        survivalAfter: kept.map((at) => survival[at] as number),
      },
    },
  ];
}

function thinned(length: number): number[] {
  const every = Math.max(1, Math.ceil(length / mostPoints));
  return Array.from({ length }, (_, at) => at).filter((at) => at % every === 0 || at === length - 1);
}

function fittedSeries({ begun: { fit } }: Seen, group: string, view: View): Series[] {
  if (fit === null) return [];
  const ages = Array.from({ length: fittedPoints }, (_, at) => (horizonOf(view) * (at + 1)) / fittedPoints);
  const at = ages.map((age) => fit.survivalAt(age));
  const columns = { survival: at.map(({ value }) => value), lower: at.map(({ lower }) => lower) };
  return [
    { name: 'begun-fitted', group, columns: { [view.axis]: ages, ...columns, upper: at.map(({ upper }) => upper) } },
  ];
}
