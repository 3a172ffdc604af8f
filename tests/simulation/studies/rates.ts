import {
  eventRate,
  fisherExact,
  heterogeneityTest,
  proportion,
  proportionDifference,
  rateRatio,
  shrinkRates,
  standardizedRatio,
  stratifiedDifference,
} from '../../../lib/statistics/index.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { holds, type Study } from '../study.ts';

/** Failures and miles of a vehicle, its rate drawn from Gamma(1/spread) so that its wheel ends share it. */
function drawVehicles(vehicles: number, rate: number, spread: number, random: Random) {
  const exposure = Float64Array.from({ length: vehicles }, () => 0.5 + 2 * random.uniform());
  const events = exposure.map((miles) =>
    random.poisson(rate * miles * (spread > 0 ? random.gamma(1 / spread) * spread : 1)),
  );
  return { events, exposure, cluster: Int32Array.from(events, (_, vehicle) => vehicle) };
}

const rateStudy = (mean: number): Study => ({
  method: 'eventRate',
  setting: `${mean} failures expected, failures independent`,
  claims: { 'exact, two-sided': 'covers at least', 'exact, lower limit of mean miles': 'covers at least' },
  play(random) {
    const data = { events: random.poisson(mean), exposure: 1 };
    return {
      'exact, two-sided': holds(eventRate(data).rate, mean),
      'exact, lower limit of mean miles': holds(eventRate(data, { sided: 'lower' }).meanBetween, 1 / mean),
    };
  },
});

const clusteredRate: Study = {
  method: 'eventRate',
  setting: '60 vehicles, 90 failures, rates differing between vehicles (variance 1)',
  claims: { robust: 'covers', 'exact, as if independent': 'falls short' },
  play(random) {
    const got = eventRate(drawVehicles(60, 1, 1, random));
    return { robust: got.robust && holds(got.robust.rate, 1), 'exact, as if independent': holds(got.rate, 1) };
  },
};

const twoRates: Study = {
  method: 'rateRatio',
  setting: '8 and 14 failures expected, true ratio 1',
  claims: {
    exact: 'covers at least',
    'mid-p': 'covers at least',
    'exact p-value': 'rejects at most',
    'p by likelihood': 'rejects at most',
    'mid-p p-value': 'rejects at most',
  },
  play(random) {
    const got = rateRatio({ events: [random.poisson(8), random.poisson(14)], exposure: [8, 14] });
    return {
      exact: holds(got, 1),
      'mid-p': got.exact && holds(got.exact.midP, 1),
      'exact p-value': (got.pValue ?? 1) < 0.05,
      'p by likelihood': (got.exact?.pValueByLikelihood ?? 1) < 0.05,
      'mid-p p-value': (got.exact?.midP.pValue ?? 1) < 0.05,
    };
  },
};

const stratifiedRates: Study = {
  method: 'rateRatio',
  setting: 'Mantel–Haenszel: five strata, baseline and exposure differing, true ratio 1.6',
  claims: { 'Greenland–Robins limits': 'covers', 'crude ratio, strata ignored': 'off target' },
  play(random) {
    const rows = { events: [] as number[], exposure: [] as number[], group: [] as number[], strata: [] as number[] };
    for (let stratum = 0; stratum < 5; stratum++)
      for (const group of [0, 1]) {
        const miles = group === 1 ? 2 + 3 * stratum : 14 - 3 * stratum;
        rows.events.push(random.poisson(miles * (0.5 + stratum / 2) * (group === 1 ? 1.6 : 1)));
        rows.exposure.push(miles);
        rows.group.push(group);
        rows.strata.push(stratum);
      }
    const got = rateRatio(rows);
    return {
      'Greenland–Robins limits': holds(got, 1.6),
      'crude ratio, strata ignored': got.crude === null ? null : got.crude / 1.6 - 1,
    };
  },
};

function clusteredRatio(strata: boolean): Study {
  return {
    method: 'rateRatio',
    setting: `120 vehicles, one in three exposed, rates differing between vehicles (variance 1)${strata ? ', three strata' : ''}`,
    claims: {
      robust: 'covers',
      'robust p-value': 'rejects at most',
      [strata ? 'Mantel–Haenszel, as if independent' : 'exact, as if independent']: 'falls short',
    },
    play(random) {
      const data = drawVehicles(120, 1, 1, random);
      const group = Int32Array.from(data.events, (_, vehicle) => (vehicle % 3 === 0 ? 1 : 0));
      const shops = Int32Array.from(data.events, (_, vehicle) => Math.floor(vehicle / 40));
      const got = rateRatio({ ...data, group, ...(strata ? { strata: shops } : {}) });
      return {
        robust: got.robust && holds(got.robust, 1),
        'robust p-value': got.robust && (got.robust.pValue ?? 1) < 0.05,
        [strata ? 'Mantel–Haenszel, as if independent' : 'exact, as if independent']: holds(got, 1),
      };
    },
  };
}

const shares: Study = {
  method: 'proportion',
  setting: '40 leaks, true share anywhere from 0.05 to 0.95',
  claims: { 'Wilson, on average': 'covers', 'Clopper–Pearson': 'covers at least' },
  play(random) {
    const share = 0.05 + 0.9 * random.uniform();
    const data = { events: draws(40, share, random), total: 40 };
    return {
      'Wilson, on average': holds(proportion(data), share),
      'Clopper–Pearson': holds(proportion(data, { method: 'clopper-pearson' }), share),
    };
  },
};

const draws = (total: number, share: number, random: Random): number => {
  let hits = 0;
  for (let i = 0; i < total; i++) if (random.uniform() < share) hits++;
  return hits;
};

const twoShares: Study = {
  method: 'proportionDifference',
  setting: '50 and 80 leaks, true shares anywhere from 0.1 to 0.9',
  claims: { Newcombe: 'covers' },
  play(random) {
    const [p1, p2] = [0.1 + 0.8 * random.uniform(), 0.1 + 0.8 * random.uniform()];
    const got = proportionDifference({ events: [draws(50, p1, random), draws(80, p2, random)], total: [50, 80] });
    return { Newcombe: holds(got, p1 - p2) };
  },
};

/** Jobs that answer some of six questions, those of one job alike; the second group is asked the more telling ones oftener. */
const sharesOverStrata: Study = {
  method: 'stratifiedDifference',
  setting: '120 and 200 jobs, six questions of unlike shares answered unlike often, answers of one job alike',
  claims: { 'limits, no difference': 'covers', 'limits, 0.08 apart': 'covers' },
  play(random) {
    const limits = (apart: number) => {
      const rows = { event: [] as number[], group: [] as number[], strata: [] as number[], cluster: [] as number[] };
      for (let job = 0; job < 320; job++) {
        const group = job < 120 ? 0 : 1;
        const careless = random.uniform() < 0.3 ? 0.15 : 0;
        for (let question = 0; question < 6; question++) {
          if (random.uniform() > (group === 0 ? 0.4 : 0.4 + 0.1 * question)) continue;
          rows.event.push(random.uniform() < 0.05 + 0.06 * question + careless + group * apart ? 1 : 0);
          rows.group.push(group);
          rows.strata.push(question);
          rows.cluster.push(job);
        }
      }
      return stratifiedDifference(rows);
    };
    return { 'limits, no difference': holds(limits(0), 0), 'limits, 0.08 apart': holds(limits(0.08), 0.08) };
  },
};

const estimatesApart: Study = {
  method: 'heterogeneityTest',
  setting: 'five estimates with errors from 0.1 to 0.4, of one truth',
  claims: { 'test of none': 'rejects at most' },
  play(random) {
    const errors = [0.1, 0.15, 0.2, 0.3, 0.4];
    const found = heterogeneityTest({
      value: errors.map((error) => error * random.normal()),
      variance: errors.map((error) => error ** 2),
    });
    return { 'test of none': (found?.pValue ?? 1) < 0.05 };
  },
};

const twoByTwo: Study = {
  method: 'fisherExact',
  setting: '30 and 45 leaks, true shares 0.3 and 0.3; odds ratio 2.5',
  claims: { 'limits, odds ratio 2.5': 'covers at least', 'test of none': 'rejects at most' },
  play(random) {
    const table = (p1: number, p2: number) => {
      const [a, c] = [draws(30, p1, random), draws(45, p2, random)];
      return fisherExact([
        [a, 30 - a],
        [c, 45 - c],
      ]);
    };
    const odds = (2.5 * 0.3) / 0.7;
    return {
      'limits, odds ratio 2.5': holds(table(odds / (1 + odds), 0.3), 2.5),
      'test of none': table(0.3, 0.3).pValue < 0.05,
    };
  },
};

const standardised: Study = {
  method: 'standardizedRatio',
  setting: '12 expected, true ratio 0.7; 60 vehicles with rates of variance 1',
  claims: { exact: 'covers at least', 'exact test of none': 'rejects at most', 'robust, vehicles': 'covers' },
  play(random) {
    const { events, exposure, cluster } = drawVehicles(60, 1, 1, random);
    const clustered = standardizedRatio({ observed: events, expected: exposure, cluster });
    return {
      exact: holds(standardizedRatio({ observed: random.poisson(0.7 * 12), expected: 12 }), 0.7),
      'exact test of none': (standardizedRatio({ observed: random.poisson(12), expected: 12 }).pValue ?? 1) < 0.05,
      'robust, vehicles': clustered.robust && holds(clustered.robust, 1),
    };
  },
};

function shrunken(units: number, spread: number): Study {
  return {
    method: 'shrinkRates',
    setting: `${units} shops, coefficient of variation between their true rates ${spread}`,
    shortRun: 30,
    claims: {
      'averaged interval, over shops': 'covers at least',
      'empirical Bayes interval, over shops': 'labelled',
      'squared error against the raw rates, averaged': 'labelled',
      'squared error against the raw rates, empirical Bayes': 'labelled',
    },
    play(random) {
      const shape = 1 / spread ** 2;
      const truth = Float64Array.from({ length: units }, () => random.gamma(shape) / shape);
      const exposure = truth.map(() => 2 + 10 * random.uniform());
      const events = truth.map((rate, shop) => random.poisson(rate * (exposure[shop] as number)));
      const got = shrinkRates({ events, exposure });
      // The share of the fleet's shops whose interval holds their own true rate.
      const covers = ({ lower, upper }: { lower: Float64Array; upper: Float64Array }) =>
        truth.reduce((sum, rate, shop) => sum + (holds({ lower: lower[shop], upper: upper[shop] }, rate) ? 1 : 0), 0) /
        units;
      const error = (values: ArrayLike<number | null>) =>
        truth.reduce((sum, rate, i) => sum + ((values[i] as number) - rate) ** 2, 0) / units;
      // Squared error in units of what chance alone gives the raw rates, 1/exposure on average, so that it can be averaged.
      const chance = exposure.reduce((sum, miles, i) => sum + (truth[i] as number) / miles, 0) / units;
      const gain = (values: ArrayLike<number | null>) => (error(values) - error(got.raw)) / chance;
      return {
        'averaged interval, over shops': got.averaged && covers(got.averaged),
        'empirical Bayes interval, over shops': covers(got),
        'squared error against the raw rates, averaged': got.averaged && gain(got.averaged.value),
        'squared error against the raw rates, empirical Bayes': gain(got.value),
      };
    },
  };
}

export const rateStudies: Study[] = [
  rateStudy(2),
  rateStudy(25),
  clusteredRate,
  twoRates,
  stratifiedRates,
  clusteredRatio(false),
  clusteredRatio(true),
  shares,
  twoShares,
  sharesOverStrata,
  estimatesApart,
  twoByTwo,
  standardised,
  shrunken(40, 0.5),
  shrunken(5, 0.5),
  shrunken(5, 0.15),
];
