import type { Series } from '../../shared/finding.ts';
import { horizonOf, type Axis, type View } from '../../shared/view.ts';
import type { SurvivalCurve } from '../statistics/index.ts';
import type { CurveRows } from './curve-rows.ts';

/** More lines than this cannot be told apart; the smallest groups stay in the table. */
export const mostCurves = 12;
const mostPoints = 400;

/** Groups drawn: the largest by lives, in the order shown. */
export function drawnGroups(lives: readonly number[]): number[] {
  const largest = lives.map((_, group) => group).sort((a, b) => (lives[b] as number) - (lives[a] as number));
  return largest
    .slice(0, mostCurves)
    .filter((group) => (lives[group] as number) > 0)
    .sort((a, b) => a - b);
}

/** Places kept of a curve: its steps, thinned evenly along its length, and always those in `wanted`. */
function keptPlaces({ time, survival, events }: SurvivalCurve, wanted: readonly number[]): number[] {
  const last = time.length - 1;
  const steps = Array.from(time, (_, place) => place).filter(
    (place) => (events[place] as number) > 0 || place === last,
  );
  if (steps.length + wanted.length <= mostPoints) return [...new Set([...steps, ...wanted])].sort((a, b) => a - b);
  const budget = mostPoints - wanted.length - 2;
  const reach = (time[last] as number) - (time[0] as number) || 1;
  const fall = (survival[0] as number) - (survival[last] as number) || 1;
  const along = (place: number) =>
    ((time[place] as number) - (time[0] as number)) / reach +
    ((survival[0] as number) - (survival[place] as number)) / fall;
  let next = 0;
  const kept = steps.filter((place) => {
    if (along(place) < next) return false;
    next = along(place) + 2 / budget;
    return true;
  });
  return [...new Set([...kept, ...wanted, last])].sort((a, b) => a - b);
}

/** The places a reader's numbers are read from: the horizon's, and one in ten's. */
function readPlaces({ time, survival }: SurvivalCurve, horizon: number): number[] {
  const beyond = time.findIndex((age) => age > horizon);
  const tenth = survival.findIndex((share) => share <= 0.9 + 1e-12);
  const before = beyond < 0 ? time.length - 1 : beyond - 1;
  return [before, tenth - 1, tenth].filter((place) => place >= 0);
}

const outer =
  (own: Float64Array, robust: Float64Array | undefined, pick: (...values: number[]) => number) => (place: number) =>
    robust ? pick(own[place] as number, robust[place] as number) : (own[place] as number);

/** One curve as columns, from the age it starts at: age (under the name of the axis), survival, the outer limits, at risk just before. */
export function curveSeries(curve: SurvivalCurve, start: number, view: View): Series {
  const places = keptPlaces(curve, readPlaces(curve, horizonOf(view)));
  const lower = outer(curve.lower, curve.robustLower, Math.min);
  const upper = outer(curve.upper, curve.robustUpper, Math.max);
  const column = (first: number, at: (place: number) => number) => [first, ...places.map(at)];
  return {
    name: 'curve',
    group: curve.group,
    columns: {
      [view.axis]: column(start, (place) => curve.time[place] as number),
      survival: column(1, (place) => curve.survival[place] as number),
      lower: column(1, lower),
      upper: column(1, upper),
      atRisk: column(curve.atRisk[0] ?? 0, (place) => curve.atRisk[place] as number),
    },
  };
}

/** Round ages up to the longest life, at most nine of them; months in whole years and their parts. */
export function ageTicks(longest: number, axis: Axis): number[] {
  if (!(longest > 0)) return [0];
  const rough = longest / 8;
  const calendar = [1, 3, 6, 12, 24, 36, 60, 120].find((one) => one >= rough);
  if (axis === 'months' && calendar !== undefined)
    return Array.from({ length: Math.floor(longest / calendar + 1e-9) + 1 }, (_, tick) => tick * calendar);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 2.5, 5, 10].map((factor) => factor * power).find((one) => one >= rough) ?? rough;
  return Array.from({ length: Math.floor(longest / step + 1e-9) + 1 }, (_, tick) => tick * step);
}

/**
 * How many lives of a group are at risk at each age: entered before (or new, at age 0), not gone before.
 * @param ticks as `ageTicks` gives them, from 0 in equal steps
 */
export function atRiskSeries(
  rows: CurveRows,
  groups: readonly number[],
  ticks: readonly number[],
  axis: Axis,
): Series[] {
  const { codes, levels } = rows.group;
  const [width, step] = [ticks.length + 1, ticks[1] ?? Infinity];
  const change = new Int32Array(levels.length * width);
  for (let row = 0; row < rows.rows; row++) {
    const [entry, exit] = [rows.entry[row] as number, rows.exit[row] as number];
    const first = entry === 0 ? 0 : Math.min(ticks.length, Math.floor(entry / step) + 1);
    const after = Math.max(first, Math.min(ticks.length, Math.floor(exit / step) + 1));
    const base = (codes[row] as number) * width;
    change[base + first] = (change[base + first] as number) + 1;
    change[base + after] = (change[base + after] as number) - 1;
  }
  return groups.map((group) => {
    let atRisk = 0;
    const counts = ticks.map((_, tick) => (atRisk += change[group * width + tick] as number));
    return { name: 'at-risk', group: levels[group] as string, columns: { [axis]: [...ticks], atRisk: counts } };
  });
}
