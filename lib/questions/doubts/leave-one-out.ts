import type { Doubt } from '../../../shared/finding.ts';
import type { Pair } from '../comparison.ts';
import { firmnessRule } from '../firmness.ts';
import { ratioText } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** Events and miles of one shop, or one vehicle, within one group. */
export interface Carried {
  readonly by: string | number;
  readonly group: number;
  readonly events: number;
  readonly miles: number;
}

/** An answer that one shop or vehicle moves by more than this factor stands on it. */
const mostMoved = 1.25;
/** Up to this factor two rates are taken as equal. */
const mostEqual = 1.1;

/** Events and miles of the groups asked of: of the one, or of the compared and then the reference. */
type Sums = readonly { events: number; miles: number }[];

const emptySums = (size: number): Sums => Array.from({ length: size }, () => ({ events: 0, miles: 0 }));

function addTo(sums: Sums, place: number, { events, miles }: { events: number; miles: number }, sign = 1): void {
  const sum = sums[place];
  if (!sum) return;
  sum.events += sign * events;
  sum.miles += sign * miles;
}

/** The rate, or the ratio of rates; null where nothing is left on a side. */
function answerOf(sums: Sums): number | null {
  const rates = sums.map(({ events, miles }) => (miles > 1e-6 ? events / miles : null));
  const [compared, reference] = rates;
  if (compared === null || compared === undefined) return null;
  if (rates.length === 1) return compared;
  return reference === null || reference === undefined || reference === 0 ? null : compared / reference;
}

/** The answer without each shop or vehicle that has a part in it. */
function answersWithout(carried: readonly Carried[], asked: readonly number[], whole: Sums) {
  const parts = new Map<string | number, Sums>();
  for (const one of carried) {
    const place = asked.indexOf(one.group);
    if (place < 0) continue;
    let sums = parts.get(one.by);
    if (!sums) parts.set(one.by, (sums = emptySums(asked.length)));
    addTo(sums, place, one);
  }
  return [...parts].map(([by, part]) => {
    const rest = whole.map((sum) => ({ ...sum }));
    part.forEach((sum, place) => addTo(rest, place, sum, -1));
    return { by, answer: answerOf(rest) };
  });
}

/**
 * Leaves each shop (or vehicle) out in turn. Fails where one of them moves the rate or the ratio by
 * a quarter or more, takes the ratio to the other side of 1, or is all there is of a group.
 * @param at the pair compared, or the one group asked of
 */
export function leaveOneOut(kind: 'shop' | 'vehicle', carried: readonly Carried[], at: Pair | number): Doubt | null {
  const asked = typeof at === 'number' ? [at] : [at.compared, at.reference];
  const sums = emptySums(asked.length);
  for (const one of carried) addTo(sums, asked.indexOf(one.group), one);
  const whole = answerOf(sums);
  if (whole === null || sums.some(({ events }) => events < firmnessRule.thinFailures)) return null;
  const without = answersWithout(carried, asked, sums);
  const name = kind === 'shop' ? 'One shop alone' : 'One vehicle alone';
  const settledBy = kind === 'shop' ? 'the same work done in other shops' : 'the same answer cut by vehicle';
  const who = (by: string | number) => (kind === 'shop' ? `${by}` : 'one vehicle');
  const sole = without.find(({ answer }) => answer === null);
  if (sole) return doubt(name, 'fails', `Without ${who(sole.by)} there is nothing left to go by.`, settledBy);
  const moved = (answer: number) => Math.abs(Math.log(Math.max(answer, 1e-12) / whole));
  const answers = without.map(({ by, answer }) => ({ by, answer: answer as number }));
  const most = answers.reduce((worst, one) => (moved(one.answer) > moved(worst.answer) ? one : worst));
  const [low, high] = answers.reduce(
    ([least, top], { answer }) => [Math.min(least, answer), Math.max(top, answer)],
    [Infinity, -Infinity],
  );
  // A ratio that is hardly one to begin with may fall on either side of 1.
  const crosses = asked.length === 2 && ((whole > mostEqual && low <= 1) || (whole < 1 / mostEqual && high >= 1));
  const fails = crosses || moved(most.answer) > Math.log(mostMoved);
  const what = asked.length === 1 ? 'rate per million miles' : 'ratio of rates';
  const scale = asked.length === 1 ? 1e6 : 1;
  const [from, to] = [ratioText(low * scale), ratioText(high * scale)];
  const span = from === to ? `hardly moves the ${what}` : `moves the ${what} between ${from} and ${to}`;
  const culprit = fails ? ` Most hangs on ${who(most.by)}.` : '';
  return doubt(name, failsIf(fails), `Leaving any one ${kind} out ${span}.${culprit}`, settledBy);
}
