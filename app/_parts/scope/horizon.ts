import { kilometresPerMile, type UnitSystem } from '../../../shared/units.ts';
import type { Axis, View } from '../../../shared/view.ts';

/** The ruler in shown units: miles, kilometres, or months. */
export interface Ruler {
  /** Shown units per mile, or per month. */
  readonly factor: number;
  readonly symbol: string;
  /** What one press of an arrow key moves, and the finest the mark can be set by hand. */
  readonly step: number;
  readonly end: number;
  /** Distance between small ticks; every tenth is named. */
  readonly tick: number;
}

/** The part of a view that says how far lives are followed. */
export const horizonAs = (axis: Axis, horizon: number): Partial<View> =>
  axis === 'months' ? { horizonMonths: horizon } : { horizonMiles: horizon };

/** A ruler to 500,000 miles, 800,000 km or ten years, longer where the horizon lies beyond. */
export function rulerFor({ axis, horizonMiles, horizonMonths }: View, units: UnitSystem): Ruler {
  if (axis === 'months') {
    const years = Math.max(10, Math.ceil(horizonMonths / 120) * 10);
    return { factor: 1, symbol: 'months', step: years > 10 ? 12 : 1, end: years * 12, tick: (years * 12) / 50 };
  }

  const [factor, symbol, usual] = units === 'us' ? [1, 'mi', 500_000] : [kilometresPerMile, 'km', 800_000];
  const shown = horizonMiles * factor;
  const end = shown <= usual ? usual : Math.ceil(shown / 500_000) * 500_000;
  const tick = end / (end <= 500_000 ? 50 : 80);
  return { factor, symbol, step: end <= 800_000 ? 5_000 : 50_000, end, tick };
}

/** The nearest place of the ruler's steps, never zero. */
export function snapped(shown: number, { step, end }: Ruler): number {
  return Math.min(end, Math.max(step, Math.round(shown / step) * step));
}

/** Where a key moves the mark; null for a key that moves nothing. */
export function movedBy(key: string, shown: number, ruler: Ruler): number | null {
  const moves: Readonly<Record<string, number>> = {
    ...{ ArrowRight: ruler.step, ArrowUp: ruler.step, ArrowLeft: -ruler.step, ArrowDown: -ruler.step },
    ...{ PageUp: ruler.step * 10, PageDown: -ruler.step * 10, Home: -Infinity, End: Infinity },
  };
  const move = Object.hasOwn(moves, key) ? moves[key] : undefined;
  return move === undefined ? null : snapped(Math.max(0, Math.min(ruler.end, shown + move)), ruler);
}
