import type { Series } from '../../../shared/finding.ts';
import { daysAMonth } from '../../../shared/units.ts';
import { cusum, type Cusum } from '../../statistics/index.ts';
import { dayText, type ChangeEvidence } from './change-evidence.ts';
import { cellOf, type ChangeSides } from './change-sides.ts';
import { withinAges, type CommonAges } from './common-ages.ts';
import { expectingAs } from './expected-before.ts';

/** What the sum watches for unless the change was written down with a ratio of its own. */
export const usualRatio = 0.7;
const sumSeed = 20_261_130;

export interface RunningSum {
  /** Days on which the months end, and failures seen and expected in each. */
  readonly monthEnd: readonly number[];
  readonly observed: readonly number[];
  readonly expected: readonly number[];
  /** Watching for fewer, and for more, as many times. */
  readonly better: Cusum;
  readonly worse: Cusum;
  readonly plannedMonths: number;
}

export interface RunningSumAsked {
  readonly day: number;
  readonly ages: CommonAges;
  readonly design: number;
  readonly ratio: number;
  /** Months that were planned beforehand; null = those seen. */
  readonly plannedMonths: number | null;
}

/**
 * Failures of what the changed shops fitted after the change, less those expected of it had it been
 * fitted as before, month by month; null where lives tell no days or nothing is expected. Either
 * signal is false in at most 2.5 % of planned periods without a change, so one of them in at most 5 %.
 */
export function runningSum(evidence: ChangeEvidence, sides: ChangeSides, asked: RunningSumAsked): RunningSum | null {
  const { day, ages, design, ratio } = asked;
  const before = withinAges(evidence, cellOf(sides, 1, 0), ages);
  const past = before.event.reduce((sum, one) => sum + one, 0);
  const months = Math.floor((evidence.followedTo - day) / daysAMonth);
  if (past === 0 || months < 1) return null;
  const told = expectedByMonth(evidence, cellOf(sides, 1, 1), asked, months, expectingAs(evidence, before));
  if (told === null || !told.expected.some((one) => one > 0)) return null;
  const { observed, expected } = told;
  const plannedMonths = asked.plannedMonths ?? months;
  const recent = expected.slice(-3);
  const pace = recent.reduce((sum, one) => sum + one, 0) / recent.length;
  const plan = Array.from({ length: plannedMonths }, (_, month) => expected[month] ?? pace);
  const options = {
    ...{ falseSignalShare: 0.025, plannedExpected: plan, dispersion: design, seed: sumSeed, simulations: 2_000 },
    expectedErrorLog: Math.sqrt(design / past),
  };
  const data = { observed: observed.slice(0, plannedMonths), expected: expected.slice(0, plannedMonths) };
  return {
    monthEnd: observed.map((_, month) => day + (month + 1) * daysAMonth),
    ...{ observed, expected, plannedMonths },
    better: cusum(data, { ...options, ratio }),
    worse: cusum(data, { ...options, ratio: 1 / ratio }),
  };
}

function expectedByMonth(
  { entry, exit, event, entryDays, exitDays, installDay }: ChangeEvidence,
  places: Int32Array,
  { day, ages }: RunningSumAsked,
  months: number,
  expecting: ReturnType<typeof expectingAs>,
) {
  const observed = new Array<number>(months).fill(0);
  const expected = new Array<number>(months).fill(0);
  const within = (age: number) => Math.min(ages.to, Math.max(ages.from, age));
  for (const at of places) {
    const [from, to] = [entryDays[at] as number, exitDays[at] as number];
    if (!(to > from)) return null;
    const start = (installDay[at] as number) - day;
    const [young, old] = [entry[at] as number, exit[at] as number];
    const ageOn = (days: number) => young + ((old - young) * (days - start - from)) / (to - from);
    const first = Math.max(0, Math.floor((start + from) / daysAMonth));
    const last = Math.min(months - 1, Math.floor((start + to) / daysAMonth));
    for (let month = first; month <= last; month++) {
      const [begins, ends] = [
        Math.max(start + from, month * daysAMonth),
        Math.min(start + to, (month + 1) * daysAMonth),
      ];
      if (ends > begins)
        expected[month] = (expected[month] as number) + expecting(at, within(ageOn(begins)), within(ageOn(ends)));
    }
    if (event[at] === 1 && old > ages.from && old <= ages.to && last >= 0)
      observed[last] = (observed[last] as number) + 1;
  }
  // A failure where none is expected: past the ages at which any failed before.
  observed.forEach((seen, month) => {
    if (seen > 0 && expected[month] === 0) expected[month] = 1e-6;
  });
  return { observed, expected };
}

export function runningSumSeries({ monthEnd, observed, expected, better, worse }: RunningSum): Series[] {
  let sum = 0;
  const dates = monthEnd.map((end) => dayText(end));
  return [
    {
      ...{ name: 'running sum', group: 'where changed' },
      columns: {
        year: dates.map((date) => Number(date.slice(0, 4))),
        month: dates.map((date) => Number(date.slice(5, 7))),
        observed: [...observed],
        expected: [...expected],
        observedMinusExpected: observed.map((seen, at) => (sum += seen - (expected[at] as number))),
        scoreFewer: observed.map((_, at) => better.score[at] ?? null),
        scoreMore: observed.map((_, at) => worse.score[at] ?? null),
      },
    },
    {
      ...{ name: 'running sum limits', group: 'where changed' },
      columns: {
        ratioFewer: [better.ratio],
        limitFewer: [better.limit],
        signalFewer: [better.signalAt],
        ratioMore: [worse.ratio],
        limitMore: [worse.limit],
        signalMore: [worse.signalAt],
        falseSignalShare: [(better.falseSignalShare ?? 0) + (worse.falseSignalShare ?? 0)],
      },
    },
  ];
}
