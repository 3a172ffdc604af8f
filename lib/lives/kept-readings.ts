import { agree, type MeterPoint, type Rules } from './meter-point.ts';

/** A meter that a later reading shows to be another: near zero again, or at whatever it showed before it was fitted. */
export type NewMeter = 'from-zero' | 'from-elsewhere';

export interface Kept {
  /** Place among the readings. */
  readonly at: number;
  /** Set where this reading is the first on a meter that no reading told of. */
  readonly newMeter: NewMeter | null;
}

/** A lasting change saves at least two readings from being set aside, three where the new meter begins at no zero. */
const costOfNewMeter: Readonly<Record<NewMeter, number>> = { 'from-zero': 1.5, 'from-elsewhere': 2.5 };

/** More readings in a row than this are never all wrong; a longer stretch is a meter of its own. */
const mostSetAsideInARow = 60;

interface Path {
  /** Readings set aside, and what new meters cost. */
  readonly cost: number;
  /** How far the miles run between kept readings are off the unit's median pace, added up. */
  readonly uneven: number;
  /** Trust of the readings set aside, and their places, added up. */
  readonly distrusted: number;
  readonly places: number;
  readonly before: Path | null;
  readonly at: number;
  readonly newMeter: NewMeter | null;
}

/** The better of two ways: fewer set aside, else the steadier pace, else the less trusted set aside, else the later. */
function better(a: Path, b: Path): boolean {
  if (a.cost !== b.cost) return a.cost < b.cost;
  const close = 1e-9 * (1 + Math.abs(a.uneven) + Math.abs(b.uneven));
  if (Math.abs(a.uneven - b.uneven) > close) return a.uneven < b.uneven;
  return a.distrusted !== b.distrusted ? a.distrusted < b.distrusted : a.places > b.places;
}

function newMeterBetween(a: MeterPoint, b: MeterPoint, pace: number | null): NewMeter {
  return b.miles < a.miles && b.miles <= 2 * (pace ?? 0) * (b.day - a.day) + 500 ? 'from-zero' : 'from-elsewhere';
}

/**
 * Which readings to believe: the fewest set aside such that each kept one can follow the one kept
 * before it, or begins a new meter. An exact search (shortest path over the readings in the order of
 * their days), so that the answer depends on the readings alone.
 * @param points by day, then miles
 */
export function keptReadings(points: readonly MeterPoint[], rules: Rules, pace: number | null): Kept[] {
  if (points.every((point, at) => at === 0 || agree(points[at - 1] as MeterPoint, point, rules)))
    return points.map((_, at) => ({ at, newMeter: null }));
  const trustBefore = [0];
  for (const { trust } of points) trustBefore.push((trustBefore.at(-1) as number) + trust);
  const trusted = (from: number, to: number) => (trustBefore[to] as number) - (trustBefore[from] as number);
  const placed = (from: number, to: number) => ((to - from) * (from + to - 1)) / 2;
  const paths: Path[] = [];
  points.forEach((point, at) => {
    let best: Path = {
      cost: at,
      uneven: 0,
      distrusted: trusted(0, at),
      places: placed(0, at),
      before: null,
      at,
      newMeter: null,
    };
    for (let from = Math.max(0, at - mostSetAsideInARow - 1); from < at; from++) {
      const [before, last] = [paths[from] as Path, points[from] as MeterPoint];
      const follows = agree(last, point, rules);
      if (!follows && !(rules['unwritten-reset'] && point.day > last.day)) continue;
      const newMeter = follows ? null : newMeterBetween(last, point, pace);
      const ran = point.miles - last.miles - (pace ?? 0) * (point.day - last.day);
      const path = {
        cost: before.cost + at - from - 1 + (newMeter ? costOfNewMeter[newMeter] : 0),
        uneven: before.uneven + (follows && pace !== null ? Math.abs(ran) : 0),
        distrusted: before.distrusted + trusted(from + 1, at),
        places: before.places + placed(from + 1, at),
        ...{ before, at, newMeter },
      };
      if (better(path, best)) best = path;
    }
    paths.push(best);
  });
  const ended = paths.map((path, at) => ({
    ...path,
    cost: path.cost + points.length - 1 - at,
    distrusted: path.distrusted + trusted(at + 1, points.length),
    places: path.places + placed(at + 1, points.length),
  }));
  let last: Path | null = ended.reduce((best, path) => (better(path, best) ? path : best));
  const kept: Kept[] = [];
  for (; last; last = last.before) kept.push({ at: last.at, newMeter: last.newMeter });
  return kept.reverse();
}
