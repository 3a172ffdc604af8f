import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  meanCumulativeDifference,
  meanCumulativeFunction,
  nelsonAalen,
  StatisticsError,
  type MeanCumulativeCurve,
  type RecurrentData,
} from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const valveSeat = loadData('valveSeat');
const cgd = loadData('cgd');
const units = loadData('sim_recur_units');
const events = loadData('sim_recur_events');
const join = (one: ArrayLike<number>, two: ArrayLike<number>) =>
  Float64Array.from([...Array.from(one), ...Array.from(two)]);
const unitGroup = units['group'] as string[];

const CASES: [string, RecurrentData][] = [
  [
    'mcf-valveseat',
    { subject: numbers(valveSeat, 'id'), exit: numbers(valveSeat, 'time'), event: numbers(valveSeat, 'status') },
  ],
  [
    'mcf-cgd-twogroup',
    {
      subject: numbers(cgd, 'id'),
      entry: numbers(cgd, 'tstart'),
      exit: numbers(cgd, 'tstop'),
      event: numbers(cgd, 'status'),
      group: cgd['treat'] as string[],
    },
  ],
  [
    // One row a unit for its time and one an event, events at one time in rows of their own.
    'mcf-sim-late-entry',
    {
      subject: join(numbers(units, 'id'), numbers(events, 'id')),
      entry: join(numbers(units, 'entry'), numbers(events, 'time')),
      exit: join(numbers(units, 'end'), numbers(events, 'time')),
      event: [...unitGroup.map(() => 0), ...Array.from(numbers(events, 'id'), () => 1)],
      group: [
        ...unitGroup,
        ...Array.from(numbers(events, 'id'), (id) => unitGroup[numbers(units, 'id').indexOf(id)] as string),
      ],
    },
  ],
];

describe('meanCumulativeFunction against R survival 3.5-3 survfit(id=) and the formulas of the books', () => {
  it.each(CASES)('%s', (id, data) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'meanCumulativeFunction', source: `${id}: ${source}` };
    const groups: Record<string, Record<string, never>> = expected.groups ?? { all: expected };
    const plain = meanCumulativeFunction(data, { interval: 'plain', nelson: true });
    const log = meanCumulativeFunction(data);
    for (const [group, want] of Object.entries<any>(groups)) {
      const got = plain.find((curve) => curve.group === group) as MeanCumulativeCurve;
      const onLog = log.find((curve) => curve.group === group) as MeanCumulativeCurve;
      expect(got.subjects).toBe(want.n_units);
      check(about, got.time, want.time, 0);
      check(about, got.atRisk, want.n_risk, 1e-12);
      check(about, got.events, want.n_event, 1e-12);
      check(about, got.mean, want.mcf, 1e-8);
      check(about, got.standardError, want.se_robust, 1e-8);
      check(about, got.poissonStandardError, want.se_poisson, 1e-8);
      check(about, got.lower, want.ci_robust_plain.lower, 1e-8);
      check(about, got.upper, want.ci_robust_plain.upper, 1e-8);
      check(about, onLog.lower, want.ci_robust_log.lower, 1e-8);
      check(about, onLog.upper, want.ci_robust_log.upper, 1e-8);
      want.var_nelson.forEach((value: number | null, step: number) => {
        if (value === null) expect(got.nelsonVariance?.[step]).toBeNull();
        else check(about, got.nelsonVariance?.[step] as number, value, 1e-8);
      });
      if (want.r_survfit_std_chaz) check(about, got.standardError, want.r_survfit_std_chaz, 1e-8);
    }
    if (!expected.difference) return;
    const [one, two] = (expected.difference_order ?? ['A', 'B']).map((group: string) =>
      plain.find((curve) => curve.group === group),
    ) as [MeanCumulativeCurve, MeanCumulativeCurve];
    const got = meanCumulativeDifference(one, two);
    check(about, got.time, expected.difference.time, 0);
    check(about, got.difference, expected.difference.difference, 1e-8);
    check(about, got.standardError, expected.difference.se, 1e-8);
    check(about, got.lower, expected.difference.lower, 1e-8);
    check(about, got.upper, expected.difference.upper, 1e-8);
  });
});

describe('meanCumulativeFunction by hand', () => {
  // a: events at 2 and 4 (two at once), watched to 6; b: event at 2, to 4; c: enters at 3, to 5, no event.
  const tiny: RecurrentData = {
    subject: ['a', 'a', 'a', 'b', 'b', 'c'],
    entry: [0, 2, 4, 0, 2, 3],
    exit: [2, 4, 6, 2, 4, 5],
    event: [1, 2, 0, 1, 0, 0],
  };

  it('works ties within and between subjects, late entry and the robust error', () => {
    const [curve] = meanCumulativeFunction(tiny, { interval: 'plain', nelson: true });
    expect(curve).toMatchObject({ group: 'all', end: 6, subjects: 3 });
    expect([...curve!.time]).toEqual([2, 4]);
    expect([...curve!.atRisk]).toEqual([2, 3]);
    expect([...curve!.events]).toEqual([2, 2]);
    expect(curve!.mean[1]).toBeCloseTo(2 / 2 + 2 / 3, 14);
    // At 2 both have one of a mean of one: no spread. At 4: a (2 − 2/3)/3, b and c (0 − 2/3)/3.
    expect(curve!.standardError[0]).toBe(0);
    expect(curve!.standardError[1]).toBeCloseTo(Math.sqrt((4 / 9) ** 2 + 2 * (2 / 9) ** 2), 14);
    expect(curve!.poissonStandardError[1]).toBeCloseTo(Math.sqrt(2 / 4 + 2 / 9), 14);
    // Sample variance of 2, 0, 0 over 3; covariance with Z = 1/2, 1/2, 0 over the same three.
    const covariance = ((2 - 2 / 3) * 0.5 + (0 - 2 / 3) * 0.5) / 2;
    expect(curve!.nelsonVariance?.[1]).toBeCloseTo((4 - 4 / 3) / 2 / 3 + 2 * covariance, 14);
  });

  it('reads the same subjects from rows that follow one another, and from time and moments', () => {
    const want = meanCumulativeFunction({ ...tiny, entry: [0, 2, 4, 0, 2, 0] });
    const { entry: _, ...following } = tiny;
    expect(meanCumulativeFunction(following)).toEqual(want);
    const moments = {
      subject: ['b', 'a', 'a', 'a', 'a', 'b', 'c'],
      entry: [2, 4, 2, 4, 0, 0, 0],
      exit: [2, 4, 2, 4, 6, 4, 5],
      event: [1, 1, 1, 1, 0, 0, 0],
    };
    expect(meanCumulativeFunction(moments)).toEqual(want);
  });

  it('with single events and no ties is the Nelson–Aalen hazard of the rows', () => {
    const data = { exit: [1, 2, 3, 4, 5], event: [1, 0, 1, 0, 1], cluster: [1, 2, 3, 4, 5] };
    const [hazard] = nelsonAalen(data);
    const [curve] = meanCumulativeFunction({ ...data, subject: [1, 2, 3, 4, 5] });
    const at = [0, 2, 4];
    at.forEach((place, step) => {
      expect(curve!.mean[step]).toBeCloseTo(hazard!.cumulativeHazard[place]!, 14);
      expect(curve!.standardError[step]).toBeCloseTo(hazard!.robustStandardError![place]!, 14);
      expect(curve!.robustStandardError![step]).toBeCloseTo(hazard!.robustStandardError![place]!, 14);
    });
  });

  it('lets clusters of subjects move as one', () => {
    const [curve] = meanCumulativeFunction({ ...tiny, cluster: [1, 1, 1, 1, 1, 2] });
    // a and b together at 4: 4/9 − 2/9; c −2/9.
    expect(curve!.clusters).toBe(2);
    expect(curve!.robustStandardError![1]).toBeCloseTo(Math.sqrt(2) * (2 / 9), 14);
  });
});

describe('meanCumulativeFunction by law', () => {
  const subjectLives = fc.array(
    fc.record({
      entry: fc.nat(20),
      span: fc.integer({ min: 1, max: 40 }),
      at: fc.array(fc.integer({ min: 1, max: 40 })),
    }),
    { minLength: 1, maxLength: 15 },
  );

  it('is unmoved by row order and by cutting a subject into more rows', () => {
    fc.assert(
      fc.property(subjectLives, fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })), (lives, chance) => {
        const rows = lives.flatMap(({ entry, span, at }, subject) => [
          { subject, entry, exit: entry + span, event: 0 },
          ...at.filter((t) => t <= span).map((t) => ({ subject, entry: entry + t, exit: entry + t, event: 1 })),
        ]);
        const cut = rows.flatMap((row) => {
          const middle = (row.entry + row.exit) / 2;
          if (row.entry === row.exit) return [row];
          return [
            { ...row, exit: middle, event: 0 },
            { ...row, entry: middle },
          ];
        });
        const shuffled = cut.map((row) => ({ row, by: chance.next().value })).sort((a, b) => a.by - b.by);
        const columns = (list: typeof rows): RecurrentData => ({
          subject: list.map(({ subject }) => subject),
          entry: list.map(({ entry }) => entry),
          exit: list.map(({ exit }) => exit),
          event: list.map(({ event }) => event),
        });
        const [want] = meanCumulativeFunction(columns(rows), { nelson: true });
        const [got] = meanCumulativeFunction(columns(shuffled.map(({ row }) => row)), { nelson: true });
        expect([...got!.time]).toEqual([...want!.time]);
        got!.mean.forEach((value, step) => {
          expect(value).toBeCloseTo(want!.mean[step]!, 11);
          expect(got!.standardError[step]).toBeCloseTo(want!.standardError[step]!, 6);
          const variance = want!.nelsonVariance![step]!;
          if (variance === null) expect(got!.nelsonVariance![step]).toBeNull();
          else expect(got!.nelsonVariance![step]).toBeCloseTo(variance, 11);
        });
      }),
    );
  });
});

describe('meanCumulativeFunction on degenerate input', () => {
  it('gives empty curves without rows or events, and the Poisson error for one subject', () => {
    expect(meanCumulativeFunction({ subject: [], exit: [], event: [] })[0]).toMatchObject({ subjects: 0, end: 0 });
    expect(meanCumulativeFunction({ subject: [1], exit: [5], event: [0] })[0]).toMatchObject({ subjects: 1, end: 5 });
    const [one] = meanCumulativeFunction({ subject: [1, 1], exit: [5, 9], event: [1, 0] }, { nelson: true });
    expect([...one!.standardError]).toEqual([1]);
    expect(one!.nelsonVariance).toEqual([null]);
  });

  it.each<[string, RecurrentData, number | null]>([
    ['entry', { subject: [1, 1], entry: [0, 3], exit: [5, 9], event: [0, 0] }, 1],
    ['exit', { subject: [1], entry: [3], exit: [2], event: [0] }, 0],
    ['event', { subject: [1, 1], entry: [0, 9], exit: [5, 9], event: [0, 1] }, 1],
    ['event', { subject: [1, 1], entry: [2, 1], exit: [5, 1], event: [0, 1] }, 1],
    ['event', { subject: [1], exit: [0], event: [1] }, 0],
    ['event', { subject: [1], exit: [1], event: [0.5] }, 0],
    ['subject', { subject: [1], exit: [1, 2], event: [0, 0] }, null],
  ])('refuses a bad %s, naming the row', (argument, data, row) => {
    const thrown = (() => {
      try {
        return meanCumulativeFunction(data);
      } catch (error) {
        return error;
      }
    })();
    expect(thrown).toBeInstanceOf(StatisticsError);
    expect(thrown).toMatchObject({ argument, row });
  });
});
