import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import type { Finding, QuestionId } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';
import { fleet, many, type Life } from './fleet.ts';

/*
 * Published lives put into a lives table and asked as a fleet is asked; what comes out must be what
 * independent software found (tests/reference/PACK.md names source and software of each case).
 */
let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const answer = async (lives: readonly Life[], view: Partial<View>, question: QuestionId = 'seal-life') =>
  ask(await fleet(engine, lives), question, viewSchema.parse(view));

const valueOf = (finding: Finding, group: string, name: string) => {
  const estimate = finding.groups.find(({ label }) => label === group)?.estimates[name];
  if (!estimate) throw new Error(`no ${name} of ${group}`);
  return estimate;
};

interface ExpectedCurve {
  readonly group: string;
  readonly quantiles: {
    readonly probs: number[];
    readonly first_time_at_or_below: (number | null)[];
    readonly loglog: { lower: (number | null)[]; upper: (number | null)[] };
  };
  readonly rmean: { readonly horizon: number; readonly estimate: number };
  readonly time: number[];
  readonly surv: number[];
  readonly ci_loglog: { readonly lower: (number | null)[]; readonly upper: (number | null)[] };
}

const columnsOf = (name: string, exit: string, event: string, extra: Record<string, string> = {}) => {
  const data = loadData(name);
  return many(numbers(data, exit).length, (row) => ({
    exit_miles: numbers(data, exit)[row] as number,
    state: numbers(data, event)[row] === 1 ? 'failed' : 'running',
    mode: numbers(data, event)[row] === 1 ? 'seal-unknown' : null,
    ...Object.fromEntries(Object.entries(extra).map(([column, from]) => [column, String(data[from]?.[row])])),
  }));
};

const lastAt = (curve: ExpectedCurve, time: number) => curve.time.filter((one) => one <= time).length - 1;

/** The finding of each group against the curve of the reference software. */
async function agrees(source: string, lives: Life[], label: (group: string) => string, view: Partial<View> = {}) {
  const expected = loadCase(source).expected as ExpectedCurve[];
  for (const curve of expected) {
    const { horizon } = curve.rmean;
    const finding = await answer(lives, { ...view, horizonMiles: horizon });
    const about = (method: string) => ({ method: `seal-life ${method}`, source });
    const group = label(curve.group);
    const at = (prob: number) => curve.quantiles.probs.indexOf(prob);
    for (const [name, prob] of [
      ['b10Life', 0.1],
      ['medianLife', 0.5],
    ] as const) {
      if (at(prob) < 0) continue;
      const found = valueOf(finding, group, name);
      const first = curve.quantiles.first_time_at_or_below[at(prob)] ?? null;
      if (first === null) expect(found.value).toBeNull();
      else check(about(name), found.value as number, first, 1e-9);
    }
    const place = lastAt(curve, horizon);
    const mean = valueOf(finding, group, 'restrictedMean');
    const share = valueOf(finding, group, 'failedByHorizonHadNoneBeenRenewed');
    // R carries a curve on to a horizon its lives do not reach; here it gives no number.
    if ((curve.time.at(-1) as number) < horizon && (curve.surv.at(-1) as number) > 0) {
      expect([mean.value, share.value]).toEqual([null, null]);
      continue;
    }
    const turned = (value: number | null | undefined) => (value == null ? null : 1 - value);
    check(about('restrictedMean'), mean.value as number, curve.rmean.estimate, 1e-9);
    check(
      about('failedByHorizon'),
      [share.value as number, share.lower as number, share.upper as number],
      [turned(curve.surv[place]), turned(curve.ci_loglog.upper[place]), turned(curve.ci_loglog.lower[place])],
      1e-9,
    );
  }
}

test('acute leukaemia, two groups (Miller 1997)', () =>
  agrees('km-aml', columnsOf('aml', 'time', 'status', { duty: 'x' }), (group) => group.replace('x=', ''), {
    by: ['duty'],
  }));

test('diesel fans, mostly censored (Meeker & Escobar 1998)', () =>
  agrees('km-genfan', columnsOf('genfan', 'hours', 'status'), () => 'all'));

test('late entry with heavy ties, three groups', async () => {
  const data = loadData('sim_lt_seals');
  const lives = columnsOf('sim_lt_seals', 'miles_k', 'failed', { duty: 'group' }).map((life, row) => ({
    ...life,
    entry_miles: numbers(data, 'entry')[row] as number,
  }));
  await agrees('km-simseals-lefttrunc', lives, (group) => group.replace('group=', ''), { by: ['duty'] });
});

test('nickel workers, late entry on the age scale (Breslow & Day 1987)', async () => {
  const data = loadData('nickel');
  const lives = columnsOf('nickel', 'ageout', 'lung', { duty: 'exposed' }).map((life, row) => ({
    ...life,
    entry_miles: numbers(data, 'agein')[row] as number,
  }));
  await agrees('km-nickel-lefttrunc', lives, (group) => group.replace('exposed=', ''), { by: ['duty'] });
});

test('nickel workers, death of another cause competing', async () => {
  const data = loadData('nickel');
  const lives = many(numbers(data, 'agein').length, (row) => {
    const lung = numbers(data, 'lung')[row] === 1;
    const dead = numbers(data, 'dead')[row] === 1;
    return {
      entry_miles: numbers(data, 'agein')[row] as number,
      exit_miles: numbers(data, 'ageout')[row] as number,
      state: lung ? 'failed' : dead ? 'planned' : 'running',
      mode: lung ? 'seal-inner' : null,
      duty: String(numbers(data, 'exposed')[row]),
    };
  });
  const { curves } = loadCase('cr-nickel-lefttrunc').expected as {
    curves: { group: string; time: number[]; causes: { cause: number; cif: number[]; se_greenwood_etm: number[] }[] }[];
  };
  const finding = await answer(lives, { by: ['duty'], horizonMiles: 70 });
  for (const { group, time, causes } of curves) {
    const place = time.filter((one) => one <= 70).length - 1;
    const found = valueOf(finding, group, 'failedByHorizonUnderRenewals');
    check(
      { method: 'seal-life under renewals', source: 'cr-nickel-lefttrunc' },
      found.value as number,
      causes[0]?.cif[place] as number,
      1e-7,
    );
  }
});

test('Weibull shape and scale of the fans, and of late entrants', async () => {
  const about = { method: 'seal-life Weibull', source: 'par-genfan' };
  const fans = await answer(columnsOf('genfan', 'hours', 'status'), {});
  const { weibull } = loadCase('par-genfan').expected;
  check(about, valueOf(fans, 'all', 'weibullShape').value as number, weibull.shape, 1e-6);
  check(about, valueOf(fans, 'all', 'weibullScale').value as number, weibull.scale, 1e-6);
  const shape = valueOf(fans, 'all', 'weibullShape');
  check(about, [shape.lower as number, shape.upper as number], weibull.ci_shape_logscale, 1e-6);
  const data = loadData('sim_lt_seals');
  const late = await answer(
    columnsOf('sim_lt_seals', 'miles_k', 'failed', { duty: 'group' }).map((life, row) => ({
      ...life,
      entry_miles: numbers(data, 'entry')[row] as number,
    })),
    { where: { duty: ['A'] } },
  );
  const expected = loadCase('par-simseals-lefttrunc').expected.weibull;
  check(
    { ...about, source: 'par-simseals-lefttrunc' },
    valueOf(late, 'all', 'weibullShape').value as number,
    expected.shape,
    1e-6,
  );
});

test('hours between fan failures, time-terminated limits', async () => {
  const { total, failures, mtbf, limits } = loadCase('mtbf-genfan').expected;
  const finding = await answer(columnsOf('genfan', 'hours', 'status'), {}, 'mean-miles');
  const found = valueOf(finding, 'all', 'meanMilesBetweenFailures');
  expect(finding.groups[0]).toMatchObject({ failures, miles: total });
  const { lower, upper } = limits.level_95.time_terminated.two_sided;
  check(
    { method: 'mean-miles', source: 'mtbf-genfan' },
    [found.value as number, found.lower as number, found.upper as number],
    [mtbf, lower, upper],
    1e-9,
  );
});

test('the leukaemia groups differ as the log-rank test says', async () => {
  const finding = await answer(columnsOf('aml', 'time', 'status', { duty: 'x' }), { by: ['duty'], horizonMiles: 30 });
  // Nearer to chance than 0.05: p = 0.0653 by the model (reference case rank-aml); the larger of it and the robust one is said.
  const p = Number(/p\s=\s(0\.\d+)/.exec(finding.answer)?.[1]);
  expect(p).toBeGreaterThanOrEqual(0.065);
  expect(finding.answer).toContain('That may be chance');
});
