import {
  adjustPValues,
  cusum,
  fitLife,
  drawnLimits,
  fittedHazard,
  forecastFailures,
  sharedHazardVariance,
  withSharedHazard,
  logRank,
  replacementInterval,
  requiredEvents,
} from '../../../lib/statistics/index.ts';
import { logNormalSurvival } from '../../../lib/statistics/numeric/normal.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { drawFleet, FRAIL_FLEET, LATE_FLEET, type Fleet, type FleetPlan } from '../fleet.ts';
import { holds, type Study } from '../study.ts';

const planned = (ratio: number, share: number): Study => ({
  method: 'requiredEvents',
  setting: `hazard ratio ${ratio}, ${share * 100} % exposed, planned for 80 %`,
  claims: { 'log-rank test on so many failures': 'finds' },
  play(random) {
    const { events } = requiredEvents({ ratio }, { share });
    const exposed = Float64Array.from({ length: events }, () => (random.uniform() < share ? 1 : 0));
    const exit = exposed.map((with1) => random.exponential() / (with1 ? ratio : 1));
    const { pValue } = logRank({ exit, event: exit.map(() => 1), group: { levels: ['0', '1'], codes: exposed } });
    return { 'log-rank test on so many failures': pValue === null ? null : pValue < 0.05 };
  },
});

const many: Study = {
  method: 'adjustPValues',
  setting: '20 comparisons of which 5 are real (three standard errors)',
  claims: {
    'share of false findings, Benjamini–Hochberg': 'rejects at most',
    'any false finding, Holm': 'rejects at most',
    'any false finding, uncorrected': 'rejects too often',
  },
  play(random) {
    const raw = Array.from(
      { length: 20 },
      (_, i) => 2 * Math.exp(logNormalSurvival(Math.abs(random.normal() + (i < 5 ? 3 : 0)))),
    );
    const found = (values: readonly (number | null)[]) => values.flatMap((p, i) => ((p as number) < 0.05 ? [i] : []));
    const falseOnes = (values: readonly (number | null)[]) => found(values).filter((i) => i >= 5).length;
    const bh = adjustPValues(raw);
    return {
      'share of false findings, Benjamini–Hochberg': falseOnes(bh) / Math.max(1, found(bh).length),
      'any false finding, Holm': falseOnes(adjustPValues(raw, { method: 'holm' })) > 0,
      'any false finding, uncorrected': falseOnes(raw) > 0,
    };
  },
};

const MONTHS = new Array<number>(36).fill(2);
const limits = new Map<string, number>();
/** The limit is the plan's, found once: it does not depend on the fleet. */
function limitOf(ratio: number, dispersion: number): number {
  const key = `${ratio} ${dispersion}`;
  const limit =
    limits.get(key) ?? cusum({ observed: [], expected: [] }, { ratio, dispersion, plannedExpected: MONTHS }).limit;
  limits.set(key, limit);
  return limit;
}

const runningSum: Study = {
  method: 'cusum',
  setting: '36 months of 2 expected failures',
  claims: {
    'false signal, ratio 0.5': 'rejects at most',
    'false signal, ratio 2': 'rejects at most',
    'false signal, failures in clumps (variance 3 times the mean), limit for single ones': 'rejects too often',
    'false signal, failures in clumps, limit for that dispersion': 'rejects at most',
  },
  play(random) {
    const signal = (ratio: number, dispersion: number, spread: number) => {
      // Gamma-mixed months: another overdispersion than the clumps the limit was made with, of the same size.
      const observed = MONTHS.map((mean) =>
        random.poisson(spread > 1 ? (random.gamma(mean / (spread - 1)) / (mean / (spread - 1))) * mean : mean),
      );
      return cusum({ observed, expected: MONTHS }, { ratio, limit: limitOf(ratio, dispersion) }).signalAt !== null;
    };
    return {
      'false signal, ratio 0.5': signal(0.5, 1, 1),
      'false signal, ratio 2': signal(2, 1, 1),
      'false signal, failures in clumps (variance 3 times the mean), limit for single ones': signal(2, 1, 3),
      'false signal, failures in clumps, limit for that dispersion': signal(2, 3, 3),
    };
  },
};

/** Long-run cost per unit of age when replaced at `age`, true Weibull, by Simpson's rule. */
function trueCostRate({ shape, scale }: FleetPlan, age: number, planCost: number, failureCost: number): number {
  const survival = (t: number) => Math.exp(-((t / scale) ** shape));
  const [end, panels] = [Math.min(age, 6 * scale), 2_000];
  let area = 0;
  for (let i = 0; i <= panels; i++)
    area += (i === 0 || i === panels ? 1 : i % 2 ? 4 : 2) * survival((end * i) / panels);
  return (planCost * survival(age) + failureCost * (1 - survival(age))) / ((area * end) / panels / 3);
}

const replacement: Study = {
  method: 'replacementInterval',
  setting: 'two in five enter late; failure costs 8 times a planned renewal',
  shortRun: 6,
  claims: {
    'saving at the age it names, shape 2.5': 'covers',
    'recommends renewal though nothing wears (shape 1)': 'rejects at most',
    'recommends renewal, shape 0.8, 15 vehicles': 'rejects at most',
  },
  play(random) {
    const costs = { plannedCost: 1, failureCost: 8, draws: 400, ages: [100], random };
    const plan = (fleetPlan: FleetPlan) =>
      replacementInterval(fitLife(drawFleet(fleetPlan, random), { distribution: 'weibull' }), costs);
    const wears: FleetPlan = { ...LATE_FLEET, shape: 2.5 };
    const { age, saving } = plan(wears);
    const truth =
      age.value === null ? 0 : 1 - trueCostRate(wears, age.value, 1, 8) / trueCostRate(wears, Infinity, 1, 8);
    return {
      'saving at the age it names, shape 2.5': age.value === null ? null : holds(saving, truth),
      'recommends renewal though nothing wears (shape 1)': plan({ ...LATE_FLEET, shape: 1 }).recommended,
      'recommends renewal, shape 0.8, 15 vehicles': plan({ ...LATE_FLEET, shape: 0.8, vehicles: 15 }).recommended,
    };
  },
};

/** Units still running at the end of records, how many fail within the next 40, and what was forecast. */
function forecastOf(plan: FleetPlan, random: Random, clustered: boolean) {
  const fleet: Fleet = drawFleet(plan, random);
  const fit = fitLife({ ...fleet, ...(clustered ? { cluster: fleet.vehicle } : {}) }, { distribution: 'weibull' });
  const running = [...fleet.event.keys()].filter((row) => fleet.event[row] === 0);
  const age = running.map((row) => fleet.exit[row] as number);
  const failures = running.filter((row) => (fleet.life[row] as number) <= (fleet.exit[row] as number) + 40).length;
  const forecast = forecastFailures(fit, { age }, { ahead: 40, draws: 400, random });
  const cluster = fleet.vehicle;
  const variance = sharedHazardVariance({ observed: fleet.event, expected: fittedHazard(fit, fleet), cluster });
  const units = { expected: forecast.probability, cluster: running.map((row) => fleet.vehicle[row] as number) };
  const shared = withSharedHazard({ drawn: forecast.drawn, ...units }, variance, random);
  return { alone: holds(forecast.failures, failures), shared: holds(drawnLimits(shared, 0.95), failures) };
}

const ahead: Study = {
  method: 'forecastFailures',
  setting: 'some 300 running wheel ends, next 40',
  shortRun: 15,
  claims: {
    'prediction interval, late entry': 'covers at least',
    'prediction interval, shared fate (tau 0.4), which it takes as independent': 'labelled',
    'the same with what vehicles share (withSharedHazard)': 'covers at least',
  },
  play: (random) => {
    const frail = forecastOf(FRAIL_FLEET, random, true);
    return {
      'prediction interval, late entry': forecastOf(LATE_FLEET, random, false).alone,
      'prediction interval, shared fate (tau 0.4), which it takes as independent': frail.alone,
      'the same with what vehicles share (withSharedHazard)': frail.shared,
    };
  },
};

export const decisionStudies: Study[] = [planned(2, 0.5), planned(1.6, 0.25), many, runningSum, replacement, ahead];
