import type { Doubt } from '../../../shared/finding.ts';
import type { Axis } from '../../../shared/view.ts';
import { ageAxes } from '../age-axis.ts';
import type { Pair } from '../comparison.ts';
import { firmnessRule } from '../firmness.ts';
import { ratioText } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** Events, and miles or months watched, of each shop, or each vehicle, within each group; columns of equal length. */
export interface Carried {
  readonly group: Int32Array;
  /** Code of the shop or vehicle. */
  readonly by: Int32Array;
  readonly events: Float64Array;
  readonly watched: Float64Array;
}

/** An answer that one shop or vehicle moves by more than this factor stands on it. */
const mostMoved = 1.25;
/** Up to this factor two rates are taken as equal. */
const mostEqual = 1.1;

/** Events and what was watched of one group: in all, and of each carrier by its code. */
interface Side {
  readonly events: number;
  readonly watched: number;
  readonly eventsOf: Float64Array;
  readonly watchedOf: Float64Array;
}

function sideOf({ group, by, events, watched }: Carried, asked: number, codes: number): Side {
  const [eventsOf, watchedOf] = [new Float64Array(codes), new Float64Array(codes)];
  let [allEvents, allWatched] = [0, 0];
  for (let row = 0; row < group.length; row++) {
    if (group[row] !== asked) continue;
    const code = by[row] as number;
    eventsOf[code] = (eventsOf[code] as number) + (events[row] as number);
    watchedOf[code] = (watchedOf[code] as number) + (watched[row] as number);
    allEvents += events[row] as number;
    allWatched += watched[row] as number;
  }
  return { events: allEvents, watched: allWatched, eventsOf, watchedOf };
}

/** The rate, or the ratio of rates, with one carrier left out (−1: none); null where nothing is left on a side. */
function answerWithout(sides: readonly Side[], without: number): number | null {
  const [compared, reference] = sides.map(({ events, watched, eventsOf, watchedOf }) => {
    const left = watched - (watchedOf[without] ?? 0);
    return left > 1e-6 ? (events - (eventsOf[without] ?? 0)) / left : null;
  });
  if (compared === null || compared === undefined) return null;
  if (sides.length === 1) return compared;
  return reference === null || reference === undefined || reference === 0 ? null : compared / reference;
}

/** What leaving each carrier out comes to: the span of the answers, and who moves it most. */
interface Span {
  readonly low: number;
  readonly high: number;
  readonly most: number;
  readonly moved: number;
  /** A carrier without which there is no answer; null where there is none. */
  readonly sole: number | null;
}

function spanOf(sides: readonly Side[], whole: number): Span {
  let span: Span = { low: Infinity, high: -Infinity, most: -1, moved: -1, sole: null };
  const codes = sides[0]?.watchedOf.length ?? 0;
  for (let code = 0; code < codes; code++) {
    if (!sides.some(({ watchedOf }) => (watchedOf[code] as number) > 0)) continue;
    const answer = answerWithout(sides, code);
    if (answer === null) return { ...span, sole: code };
    const moved = Math.abs(Math.log(Math.max(answer, 1e-12) / whole));
    const { low, high } = { low: Math.min(span.low, answer), high: Math.max(span.high, answer) };
    span = moved > span.moved ? { low, high, most: code, moved, sole: null } : { ...span, low, high };
  }
  return span;
}

/**
 * Leaves each shop (or vehicle) out in turn. Fails where one of them moves the rate or the ratio by
 * a quarter or more, takes the ratio to the other side of 1, or is all there is of a group.
 * @param at the pair compared, or the one group asked of
 * @param axis by which the carriers were watched
 * @param names of the shops by code; vehicles are not named
 */
export function leaveOneOut(
  kind: 'shop' | 'vehicle',
  carried: Carried,
  at: Pair | number,
  axis: Axis,
  names: readonly string[] = [],
): Doubt | null {
  const codes = carried.by.reduce((most, code) => Math.max(most, code + 1), 0);
  const asked = typeof at === 'number' ? [at] : [at.compared, at.reference];
  const sides = asked.map((group) => sideOf(carried, group, codes));
  const whole = answerWithout(sides, -1);
  if (whole === null || sides.some(({ events }) => events < firmnessRule.thinFailures)) return null;
  const name = kind === 'shop' ? 'One shop alone' : 'One vehicle alone';
  const settledBy = kind === 'shop' ? 'the same work done in other shops' : 'the same answer cut by vehicle';
  const who = (code: number) => names[code] ?? `one ${kind}`;
  const { low, high, most, moved, sole } = spanOf(sides, whole);
  if (sole !== null) return doubt(name, 'fails', `Without ${who(sole)} there is nothing left to go by.`, settledBy);
  // A ratio that is hardly one to begin with may fall on either side of 1.
  const crosses = sides.length === 2 && ((whole > mostEqual && low <= 1) || (whole < 1 / mostEqual && high >= 1));
  const fails = crosses || moved > Math.log(mostMoved);
  const { rateUnit, factor } = ageAxes[axis];
  const [what, scale] = sides.length === 1 ? [`rate ${rateUnit}`, factor] : ['ratio of rates', 1];
  const [from, to] = [ratioText(low * scale), ratioText(high * scale)];
  const span = from === to ? `hardly moves the ${what}` : `moves the ${what} between ${from} and ${to}`;
  const culprit = fails ? ` Most hangs on ${who(most)}.` : '';
  return doubt(name, failsIf(fails), `Leaving any one ${kind} out ${span}.${culprit}`, settledBy);
}
