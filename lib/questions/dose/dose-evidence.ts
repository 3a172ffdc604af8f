import { measuredBehind, measuredQuantities, type MeasuredQuantity } from '../../../shared/measured.ts';
import type { View } from '../../../shared/view.ts';
import { adjustableLives, type AdjustableLives } from '../adjustment/adjustable-lives.ts';
import { adjustmentOf, type Adjustment } from '../adjustment/adjustment.ts';
import type { Asking } from '../asking.ts';
import { outcomeAsked, outcomeOf, type OutcomeAsked } from '../causes/outcome.ts';
import { askedLives } from '../columns/asked-lives.ts';
import { agesOf, type LifeColumns } from '../columns/life-columns.ts';
import { gather } from '../gather.ts';
import { scopeOf, type LeftOut } from '../scope.ts';
import { measuredValues, type Measured, type MeasuredValues } from './measured-values.ts';
import type { ValueWindow } from './value-window.ts';

/** Lives whose job measured the value, all judged by one window; columns one a life. */
export interface DoseEvidence {
  readonly asked: OutcomeAsked;
  readonly quantity: MeasuredQuantity;
  readonly window: ValueWindow;
  readonly value: Float64Array;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  readonly miles: Float64Array;
  /** What was watched, in what the axis counts. */
  readonly exposure: Float64Array;
  readonly adjustment: Adjustment;
  readonly leftOut: AdjustableLives['leftOut'] & Pick<LeftOut, 'estimated'>;
  /** Lives that could be compared but tell no value; and those judged by another window. */
  readonly untold: number;
  readonly otherWindow: number;
}

/** Null with the reason where no value can be looked at. */
export async function doseEvidence(asking: Asking): Promise<DoseEvidence | string> {
  const { source, view, signal } = asking;
  const asked = outcomeAsked(view);
  const lives = askedLives(source, asked.component);
  const scope = await scopeOf({ ...asking, view: { ...view, by: [] } }, lives);
  const columns = await lives.columns(signal);
  const able = adjustableLives(scope.rows, columns, agesOf(columns, view.axis));
  const { exit, event } = await outcomeOf(view, lives, able, columns, signal);
  const measured = await measuredValues(asking, asked.component, columns.rows);
  if (!measured) return 'a lives table tells no measured values; they are read from the services of records';
  const quantity = chosen(view, measured, able.rows, event);
  const own = measured[quantity];
  const window = mostCommon(own, able.rows, event);
  if (!window) return 'no job wrote down a value that the procedure has a window for';
  const told = placesTold(own, able.rows, null).length;
  const places = placesTold(own, able.rows, window);
  const rows = gather(able.rows, places);
  const events = gather(event, places);
  return {
    ...{ asked, quantity, window, event: events, value: gather(own.value, rows) },
    ...{ entry: gather(able.entry, places), exit: gather(exit, places) },
    ...watched(view, columns, rows),
    adjustment: await adjustmentOf(asking, lives, { rows, event: events, compared: [] }),
    leftOut: { ...able.leftOut, estimated: scope.leftOut.estimated },
    ...{ untold: able.rows.length - told, otherWindow: told - places.length },
  };
}

const watched = (view: View, columns: LifeColumns, rows: Int32Array) => ({
  miles: gather(columns.exposure, rows),
  exposure: gather(agesOf(columns, view.axis).exposure, rows),
});

/** The one asked for by its deviation, else the one that most failures tell. */
function chosen(view: View, measured: MeasuredValues, rows: Int32Array, event: Uint8Array): MeasuredQuantity {
  const asked = view.deviation === null ? undefined : measuredBehind[view.deviation];
  if (asked) return asked;
  const failures = (quantity: MeasuredQuantity) =>
    placesTold(measured[quantity], rows, null).reduce((sum, at) => sum + (event[at] as number), 0);
  return [...measuredQuantities].sort((a, b) => failures(b) - failures(a))[0] as MeasuredQuantity;
}

/** Places among `rows` whose value and window are told; of one window where that is given. */
function placesTold({ value, least, most }: Measured, rows: Int32Array, window: ValueWindow | null): Int32Array {
  return Int32Array.from(rows.keys()).filter((at) => {
    const row = rows[at] as number;
    const [low, high] = [least[row] as number, most[row] as number];
    return (
      !Number.isNaN(value[row]) && low < high && (window === null || (low === window.least && high === window.most))
    );
  });
}

/** The window that most failures, then most lives, were judged by. */
function mostCommon(measured: Measured, rows: Int32Array, event: Uint8Array): ValueWindow | null {
  const weights = new Map<string, ValueWindow & { weight: number }>();
  for (const at of placesTold(measured, rows, null)) {
    const row = rows[at] as number;
    const window = { least: measured.least[row] as number, most: measured.most[row] as number };
    const key = `${window.least} ${window.most}`;
    const known = weights.get(key) ?? { ...window, weight: 0 };
    known.weight += (event[at] as number) + 1e-6;
    weights.set(key, known);
  }
  const [first] = [...weights.values()].sort((a, b) => b.weight - a.weight || a.least - b.least);
  return first ? { least: first.least, most: first.most } : null;
}
