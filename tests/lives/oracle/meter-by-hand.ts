// Which readings of one meter to believe, by trying every way from the first reading on.
import type { MileageRule } from '../../../shared/choices.ts';

export interface Point {
  readonly day: number;
  readonly miles: number;
  readonly trust: number;
}

export interface Told {
  readonly day: number;
  readonly before: number | null;
  readonly after: number;
}

type On = Readonly<Record<MileageRule, boolean>>;

export interface JudgedMeter {
  /** By `day miles`: the miles to be used, null = to be interpolated. */
  readonly used: ReadonlyMap<string, { readonly miles: number | null; readonly slipped: boolean }>;
  readonly further: readonly { readonly day: number; readonly miles: number }[];
  readonly gaps: number[];
  readonly shift: number;
}

const furthest = (from: Point, to: Point) => 1_500 * Math.max(1, to.day - from.day);
const backward = (from: Point, to: Point, on: On) => on['runs-backward'] && to.miles < from.miles;
const tooFast = (from: Point, to: Point, on: On) => on['too-fast'] && to.miles - from.miles > furthest(from, to);
const fits = (from: Point, to: Point, on: On) => !backward(from, to, on) && !tooFast(from, to, on);

/** The day in the middle of all days, ordered by what was run on them. */
export function middleDayPace(points: readonly Point[]): number | null {
  const days = points.flatMap((to, at) => {
    const from = points[at - 1];
    if (!from || to.day === from.day) return [];
    const pace = (to.miles - from.miles) / (to.day - from.day);
    return pace >= 0 && pace <= 1_500 ? Array.from({ length: to.day - from.day }, () => pace) : [];
  });
  days.sort((a, b) => a - b);
  return days[Math.ceil(days.length / 2) - 1] ?? null;
}

interface Way {
  readonly cost: number;
  readonly uneven: number;
  readonly distrusted: number;
  readonly places: number;
  readonly kept: readonly number[];
  readonly jumps: readonly number[];
}

function prefer(a: Way, b: Way): Way {
  if (a.cost !== b.cost) return a.cost < b.cost ? a : b;
  if (Math.abs(a.uneven - b.uneven) > 1e-6) return a.uneven < b.uneven ? a : b;
  if (a.distrusted !== b.distrusted) return a.distrusted < b.distrusted ? a : b;
  return a.places >= b.places ? a : b;
}

const fromZero = (from: Point, to: Point, pace: number) =>
  to.miles < from.miles && to.miles <= 2 * pace * (to.day - from.day) + 500;

/** The cheapest way to keep readings: one for each set aside, 1.5 for a meter that began at zero, 2.5 for any other. */
function cheapest(points: readonly Point[], known: number | null, on: On): Way {
  const pace = known ?? 0;
  const after = new Map<number, Way>();
  const skipped = (from: number, to: number) => points.slice(from, to);
  const plus = (way: Way, gone: readonly Point[], firstGone: number): Way => ({
    ...way,
    cost: way.cost + gone.length,
    distrusted: way.distrusted + gone.reduce((sum, { trust }) => sum + trust, 0),
    places: way.places + gone.reduce((sum, _, at) => sum + firstGone + at, 0),
  });
  const nothing: Way = { cost: 0, uneven: 0, distrusted: 0, places: 0, kept: [], jumps: [] };
  for (let at = points.length - 1; at >= 0; at--) {
    const here = points[at]!;
    let best = plus({ ...nothing, kept: [at] }, skipped(at + 1, points.length), at + 1);
    for (let next = at + 1; next < points.length; next++) {
      const there = points[next]!;
      const rest = plus(after.get(next)!, skipped(at + 1, next), at + 1);
      const follows = fits(here, there, on);
      if (!follows && (!on['unwritten-reset'] || there.day === here.day)) continue;
      const run = Math.abs(there.miles - here.miles - pace * (there.day - here.day));
      best = prefer(best, {
        ...rest,
        cost: rest.cost + (follows ? 0 : fromZero(here, there, pace) ? 1.5 : 2.5),
        uneven: rest.uneven + (follows && known !== null ? run : 0),
        kept: [at, ...rest.kept],
        jumps: follows ? rest.jumps : [next, ...rest.jumps],
      });
    }
    after.set(at, best);
  }
  if (points.length === 0) return nothing;
  return points.map((_, at) => plus(after.get(at)!, skipped(0, at), 0)).reduce(prefer, { ...nothing, cost: Infinity });
}

/**
 * Whole miles less one of their digits, where that lies between its neighbours, a doubled one or a zero at the end
 * first; or the number divided as kilometres, where it cannot stand itself and what is left lies nearer, and within two weeks' miles.
 */
function meant(point: Point, before: Point | undefined, after: Point | undefined, pace: number | null, on: On) {
  if ((!before && !after) || ((!before || !after) && pace === null)) return null;
  const [whole = '', decimals = ''] = String(point.miles).split('.');
  const guesses = [...whole].flatMap((digit, at) => {
    const left = whole.slice(0, at) + whole.slice(at + 1);
    if (left === '' || (left.length > 1 && left.startsWith('0'))) return [];
    const twice = at > 0 && whole[at - 1] === digit;
    const first = whole[at + 1] === digit;
    const endsInZero = at + 1 === whole.length && digit === '0';
    return [{ miles: Number(`${left}.${decimals || '0'}`), rank: twice || first || endsInZero ? 0 : 1 }];
  });
  const there =
    before && after
      ? before.day === after.day
        ? before.miles
        : before.miles + ((after.miles - before.miles) * (point.day - before.day)) / (after.day - before.day)
      : before
        ? before.miles + pace! * (point.day - before.day)
        : after!.miles - pace! * (after!.day - point.day);
  const near = before && after ? Infinity : (pace! * Math.abs(point.day - (before ?? after)!.day)) / 2;
  const good = guesses.filter(({ miles }) => {
    const guess = { ...point, miles };
    return (
      Math.abs(miles - there) <= near && (!before || fits(before, guess, on)) && (!after || fits(guess, after, on))
    );
  });
  const twoWeeks = 14 * (pace ?? 0);
  const rankOf = (guess: { miles: number; rank: number }) =>
    Math.abs(guess.miles - there) > twoWeeks ? 1 : guess.rank;
  good.sort(
    (a, b) => rankOf(a) - rankOf(b) || Math.abs(a.miles - there) - Math.abs(b.miles - there) || a.miles - b.miles,
  );
  const slip = on['digit-slip'] ? good[0]?.miles : undefined;
  const raw = point.miles / 1.609344;
  const divided = { ...point, miles: point.miles % 1 === 0 ? Math.round(raw) : raw };
  const standing = (one: Point) => (!before || fits(before, one, on)) && (!after || fits(one, after, on));
  const off = Math.abs(divided.miles - there);
  if (!on.kilometres || standing(point) || !standing(divided) || off > Math.min(near, twoWeeks)) return slip ?? null;
  return slip !== undefined && Math.abs(slip - there) <= off ? slip : divided.miles;
}

export function judgeMeter(points: readonly Point[], events: readonly Told[], on: On): JudgedMeter {
  const pace = middleDayPace(points);
  const used = new Map<string, { miles: number | null; slipped: boolean }>();
  const further: { day: number; miles: number }[] = [];
  const gaps: number[] = [];
  const told = on.reset ? events : [];
  let rest = [...points];
  let shift = 0;
  for (const event of [...told, null]) {
    const isOld = ({ day, miles }: Point) =>
      !event ||
      day < event.day ||
      (day === event.day && event.before !== null && Math.abs(miles - event.before) < Math.abs(miles - event.after));
    const own = rest.filter(isOld);
    rest = rest.filter((point) => !isOld(point));
    const end: Point | null = event && event.before !== null ? { day: event.day, miles: event.before, trust: 2 } : null;
    const here = [...own, ...(end ? [end] : [])].sort((a, b) => a.day - b.day || a.miles - b.miles);
    const { kept, jumps } = cheapest(here, pace, on);
    let last: Point | undefined;
    here.forEach((point, at) => {
      if (kept.includes(at)) {
        if (jumps.includes(at) && last) {
          const usual = (pace ?? 0) * (point.day - last.day);
          const ran = fromZero(last, point, pace ?? 0) ? Math.max(usual, point.miles) : usual;
          gaps.push(last.miles + shift);
          shift = last.miles + shift + ran - point.miles;
        }
        last = point;
        if (point !== end) used.set(`${point.day} ${point.miles}`, { miles: point.miles + shift, slipped: false });
        return;
      }
      if (point === end) return;
      const next = kept.find((place) => place > at);
      const after = next === undefined || jumps.includes(next) ? undefined : here[next];
      const miles = meant(point, last, after, pace, on);
      used.set(`${point.day} ${point.miles}`, {
        miles: miles === null ? null : miles + shift,
        slipped: miles !== null,
      });
      if (miles !== null) last = { ...point, miles };
    });
    if (!event) break;
    if (last !== undefined && last === end) further.push({ day: event.day, miles: last.miles + shift });
    else if (last) gaps.push(last.miles + shift);
    const run =
      last === end || !last ? (event.before ?? event.after) : last.miles + (pace ?? 0) * (event.day - last.day);
    shift = run + shift - event.after;
  }
  return { used, further, gaps, shift };
}
