import { kilometresPerMile, type UnitSystem } from '../../../shared/units.ts';

/** The mile ruler in shown units: miles, or kilometres. */
export interface Ruler {
  /** Shown units per mile. */
  readonly factor: number;
  readonly symbol: string;
  /** What one press of an arrow key moves, and the finest the mark can be set by hand. */
  readonly step: number;
  readonly end: number;
}

/** A ruler to 500,000 miles or 800,000 km, longer where the horizon lies beyond. */
export function rulerFor(horizonMiles: number, units: UnitSystem): Ruler {
  const [factor, symbol, usual] = units === 'us' ? [1, 'mi', 500_000] : [kilometresPerMile, 'km', 800_000];
  const shown = horizonMiles * factor;
  const end = shown <= usual ? usual : Math.ceil(shown / 500_000) * 500_000;
  return { factor, symbol, step: end <= 800_000 ? 5_000 : 50_000, end };
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
