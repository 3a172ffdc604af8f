import { horizonOf, type View } from '../../shared/view.ts';
import { kaplanMeier, survivalAt, type SurvivalCurve } from '../statistics/index.ts';
import { curveRows, curveStarts, keptRows, sweptStart, type AgedLives, type CurveRows } from './curve-rows.ts';

/** The product-limit curve of each group shown, and the age each starts at. */
export interface LifeCurves {
  readonly rows: CurveRows;
  /** Null where fewer than ten are ever at risk: such a group has no curve. */
  readonly starts: readonly (number | null)[];
  readonly curves: readonly SurvivalCurve[];
}

export function lifeCurves(lives: AgedLives, labels: readonly string[], view: View): LifeCurves {
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
 * Shares failed by the horizon of the same lives under another assumption, by group; null where a
 * curve falls short of it. Only the estimate is wanted, so vehicles and what comes after the horizon
 * are left out, which is most of the work.
 */
export function sharesIf(rows: CurveRows, view: View): (number | null)[] {
  const horizon = horizonOf(view);
  const seen = keptRows(rows, (row) => (rows.entry[row] as number) < horizon);
  const { entry, group } = seen;
  // One more tells a curve that reaches the horizon from one that ends there.
  const exit = seen.exit.map((end) => Math.min(end, horizon + 1));
  const event = seen.event.map((one, row) => ((seen.exit[row] as number) > horizon ? 0 : one));
  return kaplanMeier({ entry, exit, event, group }).map((curve) => failedBy(curve, horizon));
}

/** Share failed by an age; null where the curve does not go so far. */
export function failedBy(curve: SurvivalCurve, miles: number): number | null {
  const { survival } = survivalAt(curve, miles);
  return survival === null ? null : 1 - survival;
}
