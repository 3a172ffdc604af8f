import type { View } from '../../shared/view.ts';
import { kaplanMeier, type SurvivalCurve } from '../statistics/index.ts';
import { curveRows, curveStarts, keptRows, sweptStart, type CurveRows } from './curve-rows.ts';
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
 * The same lives under another assumption, as far as the horizon. Only the estimate there is wanted
 * of it, so vehicles and what comes after are left out, which is most of the work.
 */
export function curvesIf(rows: CurveRows, view: View): SurvivalCurve[] {
  const { horizonMiles } = view;
  const seen = keptRows(rows, (row) => (rows.entry[row] as number) < horizonMiles);
  const { entry, group } = seen;
  // One mile more tells a curve that reaches the horizon from one that ends there.
  const exit = seen.exit.map((end) => Math.min(end, horizonMiles + 1));
  const event = seen.event.map((one, row) => ((seen.exit[row] as number) > horizonMiles ? 0 : one));
  return kaplanMeier({ entry, exit, event, group }, { level: view.level, interval: view.interval });
}
