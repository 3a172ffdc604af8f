import { describe, expect, test } from 'vitest';
import { commonAges, withinAges } from '../../../lib/questions/after-change/common-ages.ts';
import { followedTo } from '../../../lib/questions/after-change/followed-lives.ts';
import { planOf } from '../../../lib/questions/after-change/plan.ts';
import type { ChangeEvidence } from '../../../lib/questions/after-change/change-evidence.ts';
import { runningSum } from '../../../lib/questions/after-change/running-sum.ts';

const ages = (entry: number[], exit: number[], event: number[] = exit.map(() => 0)) => ({
  entry: Float64Array.from(entry),
  exit: Float64Array.from(exit),
  event: Uint8Array.from(event),
});
const places = (from: number, to: number) => Int32Array.from({ length: to - from }, (_, at) => from + at);

describe('lives followed to a day', () => {
  // Fitted on day 100 and seen to age 100 days at 1,000 miles, 10 miles a day; of each, worked by hand.
  const life = (entryDays: number, exitDays: number, installDay = 100) => ({
    ...{ rows: Int32Array.of(0), installDay: Float64Array.of(installDay) },
    ...{ entry: Float64Array.of(entryDays * 10), exit: Float64Array.of(exitDays * 10) },
    ...{ event: Uint8Array.of(1), cause: Uint8Array.of(1) },
    ...{ entryMonths: Float64Array.of(entryDays / 30.4375), exitMonths: Float64Array.of(exitDays / 30.4375) },
  });

  test('one that failed before is as it was', () => {
    const followed = followedTo(life(0, 100), 250);
    expect([followed.exit[0], followed.event[0]]).toEqual([1000, 1]);
  });

  test('one that failed later is censored on the day, at the age it then had', () => {
    const followed = followedTo(life(20, 100), 160);
    expect(followed.exit[0]).toBeCloseTo(600, 9);
    expect(followed.event[0]).toBe(0);
    expect(followed.exitDays[0]).toBeCloseTo(60, 9);
  });

  test('one not yet watched then is none', () => {
    expect(followedTo(life(80, 100), 160).rows).toHaveLength(0);
  });
});

describe('ages in common', () => {
  test('where both have ten lives at risk', () => {
    // Twelve watched from 0 to 10…120, and twelve from 5 to 20…240: ten are at risk up to 30 of the one, up to 60 of the other.
    const steps = Array.from({ length: 12 }, (_, at) => at + 1);
    const lives = ages(
      [...steps.map(() => 0), ...steps.map(() => 5)],
      [...steps.map((at) => at * 10), ...steps.map((at) => at * 20)],
    );
    expect(commonAges(lives, [places(0, 12), places(12, 24)])).toEqual({ from: 5, to: 30 });
  });

  test('none where a cohort never has ten', () => {
    expect(
      commonAges(ages(Array<number>(20).fill(0), Array<number>(20).fill(9)), [places(0, 11), places(11, 20)]),
    ).toBeNull();
  });

  test('a failure past the last common age is none', () => {
    const within = withinAges(ages([0, 0], [40, 20], [1, 1]), places(0, 2), { from: 5, to: 30 });
    expect([...within.exit]).toEqual([30, 20]);
    expect([...within.event]).toEqual([0, 1]);
    expect([...within.entry]).toEqual([5, 5]);
  });
});

/** Jobs at one shop, all alike but for day and end. */
function evidenceOf(
  lives: readonly { day: number; days: number; failed: boolean }[],
  followed: number,
): ChangeEvidence {
  const column = (of: (life: (typeof lives)[number]) => number) => Float64Array.from(lives, of);
  const all = { levels: ['all'], codes: new Int32Array(lives.length) };
  return {
    ...{
      rows: Int32Array.from(lives.keys()),
      shops: ['Alpha'],
      shop: new Int32Array(lives.length),
      followedTo: followed,
    },
    ...{
      installDay: column(({ day }) => day),
      entry: column(() => 0),
      exit: column(({ days }) => days),
      entryDays: column(() => 0),
    },
    ...{ exitDays: column(({ days }) => days), event: Uint8Array.from(lives, ({ failed }) => (failed ? 1 : 0)) },
    cause: Uint8Array.from(lives, ({ failed }) => (failed ? 1 : 0)),
    adjustment: {
      covariates: {},
      strata: { levels: ['Alpha'], codes: all.codes },
      strataOf: ['shop'],
      cluster: { levels: lives.map((_, at) => `V${at}`), codes: Int32Array.from(lives.keys()) },
      said: [],
    },
  } as unknown as ChangeEvidence;
}

describe('failures and months needed', () => {
  test('with a hundred failures before, twenty after find half as many', () => {
    // Schoenfeld: (1.959964 + 0.841621)² / log²(0.5) = 16.336; 1 / (1/16.336 − 1/100) = 19.53.
    const lives = Array.from({ length: 400 }, (_, at) => ({ day: at, days: 300 + at, failed: at % 4 === 0 }));
    const plan = planOf(evidenceOf(lives, 1000), ['Alpha'], 400, 1);
    expect(plan?.failuresBefore).toBe(100);
    expect(plan?.at.find(({ ratio }) => ratio === 0.5)?.failuresNeeded).toBe(20);
    expect(plan?.jobsPerMonth).toBeCloseTo(30.4375, 9);
  });
});

describe('the running sum', () => {
  test('observed less expected, from what was fitted before alone', () => {
    // Before: ten jobs, one fails at 10, 20 … 100 days: hazard 1/10, 1/9, … 1. After: ten jobs on the day itself, one fails
    // at 15 days and the others run to 60: by day 30.4375 nine have the hazard of 10, 20 and 30 days, the tenth of 10.
    const before = Array.from({ length: 10 }, (_, at) => ({ day: 0, days: 10 * (at + 1), failed: true }));
    const after = Array.from({ length: 10 }, (_, at) => ({ day: 200, days: at === 0 ? 15 : 70, failed: at === 0 }));
    const evidence = evidenceOf([...before, ...after], 270);
    const sides = {
      side: new Int32Array(20).fill(1),
      after: Int32Array.from({ length: 20 }, (_, at) => (at < 10 ? 0 : 1)),
    };
    const sum = runningSum(evidence, sides, {
      day: 200,
      ages: { from: 0, to: 100 },
      design: 1,
      ratio: 0.7,
      plannedMonths: null,
    });
    expect(sum?.observed).toEqual([1, 0]);
    const [tenth, twentieth, thirtieth] = [1 / 10, 1 / 9, 1 / 8];
    expect(sum?.expected[0]).toBeCloseTo(9 * (tenth + twentieth + thirtieth) + tenth, 9);
    expect((sum?.better.falseSignalShare ?? 1) + (sum?.worse.falseSignalShare ?? 1)).toBeLessThanOrEqual(0.05);
  });
});
