import type { View } from '../../shared/view.ts';
import { kaplanMeier, type SurvivalCurve } from '../statistics/index.ts';
import { curveRows, curveStarts, sweptStart, type CurveRows } from './curve-rows.ts';
import type { LifeRows } from './life-rows.ts';

/** The product-limit curve of each group shown, and the age each starts at. */
export interface LifeCurves {
  readonly rows: CurveRows;
  /** Null where fewer than ten are ever at risk: such a group has no curve. */
  readonly starts: readonly (number | null)[];
  readonly curves: readonly SurvivalCurve[];
}

export function lifeCurves(lives: LifeRows, labels: readonly string[], view: View): LifeCurves {
  const draw = (starts: (number | null)[]): LifeCurves => {
    const rows = curveRows(lives, starts, labels);
    return { rows, starts, curves: kaplanMeier(rows, { level: view.level, interval: view.interval }) };
  };
  const first = draw(curveStarts(lives, labels.length));
  if (first.curves.every(({ emptiedAt }) => emptiedAt === null)) return first;
  return draw(
    first.starts.map((start, group) =>
      first.curves[group]?.emptiedAt == null ? start : sweptStart(lives, group, true),
    ),
  );
}

/**
 * The same lives under another assumption. Only the estimate is wanted of it, so the vehicles are
 * left out, which is most of the work.
 */
export function curvesIf(rows: CurveRows, view: View): SurvivalCurve[] {
  const { entry, exit, event, group } = rows;
  return kaplanMeier({ entry, exit, event, group }, { level: view.level, interval: view.interval });
}
