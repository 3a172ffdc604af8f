import { describe, expect, it } from 'vitest';
import { observedExpectedChange } from '../../lib/statistics/observed-expected-change.ts';
import { observedExpected } from '../../lib/statistics/observed-expected.ts';
import { createRandom } from '../../lib/statistics/numeric/random.ts';
import { proportion } from '../../lib/statistics/proportion.ts';
import { check, loadData, numbers } from '../reference/reference.ts';

const list = (values: ArrayLike<number | null>) => Array.from(values, (value) => value as number);

/*
 * R 4.2.2, survival 3.5-3. fit <- coxph(y ~ factor(group) + covariates, ties = "efron"); lp from the
 * covariates' coefficients alone; expected <- status - residuals(coxph(y ~ offset(lp)), "martingale"),
 * summed by group.
 */
describe('observedExpected against R survival', () => {
  it('veteran by cell type, with tied times', () => {
    const data = loadData('veteran');
    const got = observedExpected({
      exit: numbers(data, 'time'),
      event: numbers(data, 'status'),
      group: data['celltype'] as string[],
      covariates: { karno: numbers(data, 'karno'), trt: numbers(data, 'trt') },
    });
    const order = ['adeno', 'large', 'smallcell', 'squamous'].map((level) => got.levels.indexOf(level));
    const about = { method: 'observedExpected', source: 'R survival, veteran' };
    expect(order.map((at) => got.observed[at])).toEqual([26, 26, 45, 31]);
    check(
      about,
      order.map((at) => got.expected[at] as number),
      [15.5912489972, 29.2599049454, 35.1213520197, 48.0274940376],
      1e-9,
    );
    check(
      about,
      [0, 1, 69, 136].map((row) => got.rowExpected[row] as number),
      [0.574240515752, 2.330540346101, 3.42578386108, 1.281347933307],
      1e-9,
    );
  });

  // The error: sqrt of the summed squares of d log(O/E) / d weight of each of 60 clusters, refitting with weights 1 ± 0.001.
  it('nickel by year of birth, entered late, in clusters', () => {
    const data = loadData('nickel');
    const cohorts = Array.from(numbers(data, 'dob'), (year) =>
      year < 1885 ? 0 : year < 1890 ? 1 : year < 1895 ? 2 : 3,
    );
    const got = observedExpected({
      entry: numbers(data, 'agein'),
      exit: numbers(data, 'ageout'),
      event: Float64Array.from(numbers(data, 'icd'), (code) => (code === 162 || code === 163 ? 1 : 0)),
      group: { levels: ['a', 'b', 'c', 'd'], codes: cohorts },
      cluster: Array.from(numbers(data, 'id'), (id) => id % 60),
      covariates: { exposure: numbers(data, 'exposure'), age1st: numbers(data, 'age1st') },
    });
    const about = { method: 'observedExpected', source: 'R survival, nickel' };
    expect(list(got.observed)).toEqual([32, 30, 34, 41]);
    check(about, list(got.expected), [53.4375107671, 28.1248744637, 20.7277422509, 34.7098725183], 1e-9);
    // One time is tied: Breslow's share of the risk there, Efron's in R.
    check(about, list(got.standardErrorLog), [0.174680182407, 0.18002340201, 0.168135014746, 0.176970370184], 2e-3);
  });
});

describe('observedExpected by hand', () => {
  // No covariates: at 1 all four are at risk, at 2 three, at 3 two, of whom one of b each time.
  const lives = { exit: [1, 2, 3, 3.5], event: [1, 1, 1, 0], group: ['a', 'a', 'b', 'a'] };

  it('is the log-rank expectation without covariates', () => {
    const got = observedExpected(lives);
    expect(got.expected[1]).toBeCloseTo(1 / 4 + 1 / 3 + 1 / 2, 12);
    expect(got.expected[0]).toBeCloseTo(3 / 4 + 2 / 3 + 1 / 2, 12);
    expect(got.ratio[0]).toBeCloseTo(2 / (23 / 12), 12);
  });

  it('has the exact limits of a share of all events, over the expected share', () => {
    const got = observedExpected(lives);
    const { lower, upper } = proportion({ events: 1, total: 3 }, { method: 'clopper-pearson' });
    expect(got.lower[1]).toBeCloseTo((lower as number) / (13 / 36), 12);
    expect(got.upper[1]).toBeCloseTo((upper as number) / (13 / 36), 12);
    // Of three events at least one of b, each b with chance 13/36, and at most one.
    const [b, a] = [13 / 36, 23 / 36];
    const tails = [1 - a ** 3, a ** 3 + 3 * b * a ** 2];
    expect(got.pValue[1]).toBeCloseTo(Math.min(1, 2 * Math.min(...tails)), 12);
  });

  it('has in the expected the error of the baseline alone', () => {
    // Each row adds its event times the share of b at risk, less that share times the hazard while it was at risk.
    const [first, second, third] = [1 / 16, 1 / 9, 1 / 4];
    const pulls = [1 / 4 - first, 1 / 3 - first - second, 1 / 2 - first - second - third, -first - second - third];
    const error = Math.sqrt(pulls.reduce((sum, pull) => sum + pull ** 2, 0)) / (13 / 12);
    const { expectedLower, expectedUpper } = observedExpected(lives);
    const z = 1.959963984540054;
    expect(Math.log((expectedUpper[1] as number) / (expectedLower[1] as number))).toBeCloseTo(2 * z * error, 10);
  });

  it('leaves a group without events out of the fit, and expects of it all the same', () => {
    const covariates = { x: [0, 1, 0, 1, 1, 0, 0, 1] };
    const all = { exit: [1, 2, 3, 4, 5, 6, 7, 8], event: [1, 1, 1, 1, 1, 0, 0, 0] };
    const got = observedExpected({ ...all, group: [...'ababbacc'], covariates });
    expect(got.ratio[2]).toBe(0);
    expect(got.robustUpper[2]).toBeNull();
    expect(got.expected[2]).toBeGreaterThan(0);
    expect(got.upper[2]).toBeGreaterThan(0);
    expect(list(got.expected).reduce((sum, one) => sum + one, 0)).toBeCloseTo(5, 10);
  });

  it('takes one group alone as its own average', () => {
    const got = observedExpected({ ...lives, group: ['a', 'a', 'a', 'a'] });
    expect(got.ratio).toEqual([1]);
    expect(got.robustPValue[0]).toBe(1);
  });
});

/** Three groups with work of their own kind; vehicles with a frailty; ratios of hazard by group planted. */
function drawFleet(seed: number, planted: readonly number[]) {
  const random = createRandom(seed);
  const columns = { exit: [] as number[], entry: [] as number[], event: [] as number[], group: [] as number[] };
  const [cluster, hard] = [[] as number[], [] as number[]];
  for (let vehicle = 0; vehicle < 120; vehicle++) {
    const frailty = random.gamma(4) / 4;
    for (let place = 0; place < 4; place++) {
      const kind = random.below(2);
      const group = random.uniform() < 0.5 ? 2 * kind : 1;
      const entry = random.uniform() < 0.3 ? random.uniform() * 20 : 0;
      const life = random.exponential() / (0.012 * frailty * (planted[group] as number) * (kind === 1 ? 2.5 : 1));
      const until = 20 + 60 * random.uniform();
      if (Math.min(life, until) <= entry) continue;
      columns.exit.push(Math.min(life, until));
      columns.entry.push(entry);
      columns.event.push(life <= until ? 1 : 0);
      columns.group.push(group);
      cluster.push(vehicle);
      hard.push(kind);
    }
  }
  const { group, ...times } = columns;
  return { ...times, cluster, group: { levels: ['a', 'b', 'c'], codes: group }, covariates: { hard } };
}

/** The fleet without one vehicle at a time, and the root of the summed squares of what that moves. */
function jackknife(
  fleet: ReturnType<typeof drawFleet>,
  values: (some: ReturnType<typeof drawFleet>) => readonly number[],
): number[] {
  const whole = values(fleet);
  const squares = whole.map(() => 0);
  for (const vehicle of new Set(fleet.cluster)) {
    const kept = fleet.cluster.flatMap((one, row) => (one === vehicle ? [] : [row]));
    const take = (column: readonly number[]) => kept.map((row) => column[row] as number);
    const left = values({
      ...{ exit: take(fleet.exit), entry: take(fleet.entry), event: take(fleet.event), cluster: take(fleet.cluster) },
      group: { levels: fleet.group.levels, codes: take(fleet.group.codes) },
      covariates: { hard: take(fleet.covariates.hard) },
    });
    left.forEach((value, at) => (squares[at] = (squares[at] as number) + (value - (whole[at] as number)) ** 2));
  }
  return squares.map(Math.sqrt);
}

describe('observedExpected in clusters', () => {
  const fleet = drawFleet(5, [1, 1.4, 0.8]);
  const without = ({ covariates: _, ...rest }: typeof fleet) => rest;
  // The jackknife of 120 clusters and its infinitesimal form differ by a few in a hundred.
  const near = (error: number, left: number) => {
    expect(error / left).toBeGreaterThan(0.94);
    expect(error / left).toBeLessThan(1.02);
  };
  const half = (lower: number | null, upper: number | null) =>
    Math.log((upper as number) / (lower as number)) / (2 * 1.959964);

  it('has the errors of leaving vehicles out one at a time', () => {
    const got = observedExpected(fleet);
    const ratios = jackknife(fleet, (some) => observedExpected(some).ratio.map((ratio) => Math.log(ratio as number)));
    ratios.forEach((error, at) => near(got.standardErrorLog[at] as number, error));
  });

  it('has the errors of a change when more is taken into account', () => {
    const worse = drawFleet(5, [1, 1.4, 2.5]);
    const changeOf = (some: typeof fleet, at: number) =>
      observedExpectedChange(observedExpected(without(some)), observedExpected(some), at);
    const got = changeOf(worse, 2);
    const [ratio, gone] = jackknife(worse, (some) => {
      const [before, after] = [observedExpected(without(some)).ratio[2], observedExpected(some).ratio[2]] as [
        number,
        number,
      ];
      const part = got.share.lower as number;
      return [Math.log(after / before), before - after - part * (before - 1)];
    }) as [number, number];
    near(half(got.ratio.lower, got.ratio.upper), ratio);
    // Fieller: at its limit f the excess gone less f times the excess lies just as many errors from nothing.
    const [before, after] = [observedExpected(without(worse)).ratio[2], observedExpected(worse).ratio[2]] as [
      number,
      number,
    ];
    const off = before - after - (got.share.lower as number) * (before - 1);
    near(Math.abs(off) / 1.959964, gone);
  });

  it('has no share of an excess where there is none', () => {
    const [plain, more] = [observedExpected(without(fleet)), observedExpected(fleet)];
    const below = plain.ratio.findIndex((ratio) => (ratio as number) < 1);
    const change = observedExpectedChange(plain, more, below);
    expect(change.share.value).toBeNull();
    expect(change.ratio.value).toBeCloseTo((more.ratio[below] as number) / (plain.ratio[below] as number), 12);
  });

  // 93 % less three standard errors of a share of 3 × 150.
  it('holds a ratio of 1 where no group differs, though their work does', () => {
    let held = 0;
    const seeds = 150;
    for (let seed = 1; seed <= seeds; seed++) {
      const got = observedExpected(drawFleet(seed, [1, 1, 1]));
      for (const at of [0, 1, 2])
        if ((got.robustLower[at] as number) <= 1 && (got.robustUpper[at] as number) >= 1) held++;
    }
    expect(held / (3 * seeds)).toBeGreaterThan(0.93);
    expect(held / (3 * seeds)).toBeLessThan(0.98);
  });
});
