import { poissonRegression, splitTime, standardizedRatio, type CountData } from '../../../lib/statistics/index.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { drawFleet, FRAIL_FLEET, LATE_FLEET, type Fleet, type FleetPlan } from '../fleet.ts';
import { holds, type Study } from '../study.ts';

interface CountPlan {
  readonly vehicles: number;
  /** Wheel ends of each, rows of the data. */
  readonly ends: number;
  /** Failures per million miles without the exposure. */
  readonly rate: number;
  /** Rate ratio of the exposure, which a whole vehicle has or has not. */
  readonly ratio: number;
  /** Variance of the rates between vehicles over their squared mean: 1/θ. */
  readonly spread: number;
}

/** Every row a wheel end, its rate the vehicle's; a duty score moves the rate too. */
function drawCounts({ vehicles, ends, rate, ratio, spread }: CountPlan, random: Random) {
  const rows = vehicles * ends;
  const column = () => new Float64Array(rows);
  const [events, exposure, exposed, duty] = [column(), column(), column(), column()];
  const cluster = Int32Array.from(events, (_, row) => Math.floor(row / ends));
  for (let vehicle = 0; vehicle < vehicles; vehicle++) {
    const frailty = spread > 0 ? random.gamma(1 / spread) * spread : 1;
    const [has, score] = [vehicle % 5 < 2 ? 1 : 0, random.normal()];
    for (let row = vehicle * ends; row < (vehicle + 1) * ends; row++) {
      const miles = (exposure[row] = 0.3 + random.uniform());
      [exposed[row], duty[row]] = [has, score];
      events[row] = random.poisson(frailty * miles * rate * ratio ** has * Math.exp(0.2 * score));
    }
  }
  return { events, exposure, cluster, covariates: { exposed, duty } };
}

type Family = 'poisson' | 'quasi' | 'negative-binomial';

/** The ratio's limits, and whether a test of no effect of either covariate rejects; null where there is no answer. */
function seen(data: CountData, ratio: number, family: Family = 'poisson') {
  const { lower, upper, robustLower, robustUpper, converged } = poissonRegression(data, { family });
  return {
    covers: converged ? holds({ lower: lower[1], upper: upper[1] }, ratio) : null,
    robust: converged && robustLower ? holds({ lower: robustLower[1], upper: robustUpper?.[1] }, ratio) : null,
  };
}

const rejects = (test: { readonly pValue: number } | undefined) => test && test.pValue < 0.05;

/** Tests of the exposure, the duty left out of rates and of fit alike. */
function nothing(plan: CountPlan, random: Random, family: Family) {
  const { covariates, ...data } = drawCounts({ ...plan, ratio: 1 }, random);
  return poissonRegression({ ...data, covariates: { exposed: covariates.exposed } }, { family }).tests;
}

const plain: Study = {
  method: 'poissonRegression',
  shortRun: 40,
  setting: 'Poisson counts of 120 vehicles, some 100 failures, rate ratio 1.8',
  claims: {
    Poisson: 'covers',
    'quasi, though nothing to allow for': 'covers',
    'negative binomial, though nothing to allow for': 'covers',
    'likelihood ratio test of no effect': 'rejects at most',
    'Wald test of no effect': 'rejects at most',
    'test of overdispersion': 'rejects at most',
    'failures expected at the fitted rates': 'on target',
  },
  play(random) {
    const plan = { vehicles: 120, ends: 1, rate: 0.8, ratio: 1.8, spread: 0 };
    const data = drawCounts(plan, random);
    const tests = nothing(plan, random, 'poisson');
    const fit = poissonRegression(data);
    const other = drawCounts(plan, random);
    return {
      Poisson: seen(data, 1.8).covers,
      'quasi, though nothing to allow for': seen(data, 1.8, 'quasi').covers,
      'negative binomial, though nothing to allow for': seen(data, 1.8, 'negative-binomial').covers,
      'likelihood ratio test of no effect': rejects(tests.likelihoodRatio) ?? null,
      'Wald test of no effect': rejects(tests.wald) ?? null,
      'test of overdispersion': rejects(nothing(plan, random, 'negative-binomial').overdispersion) ?? null,
      'failures expected at the fitted rates':
        (standardizedRatio({ observed: other.events, expected: fit.expected(other) }).value as number) - 1,
    };
  },
};

const sparse: Study = {
  method: 'poissonRegression',
  shortRun: 40,
  setting: 'Poisson counts of 400 wheel ends, some 40 failures, rate ratio 1.8',
  claims: { Poisson: 'covers', quasi: 'covers', 'negative binomial': 'covers' },
  play(random) {
    const data = drawCounts({ vehicles: 400, ends: 1, rate: 0.09, ratio: 1.8, spread: 0 }, random);
    return {
      Poisson: seen(data, 1.8).covers,
      quasi: seen(data, 1.8, 'quasi').covers,
      'negative binomial': seen(data, 1.8, 'negative-binomial').covers,
    };
  },
};

const overdispersed: Study = {
  method: 'poissonRegression',
  setting: '120 vehicles, one row each, their rates gamma (θ = 1), rate ratio 1.8; counts not Poisson',
  claims: {
    'negative binomial': 'covers',
    quasi: 'covers',
    robust: 'covers',
    Poisson: 'falls short',
    'negative binomial, likelihood ratio test of no effect': 'rejects at most',
    'quasi, F test of no effect': 'rejects at most',
    'Poisson, likelihood ratio test of no effect': 'rejects too often',
    'limits of θ': 'labelled',
  },
  play(random) {
    const plan = { vehicles: 120, ends: 1, rate: 2, ratio: 1.8, spread: 1 };
    const data = drawCounts(plan, random);
    const { theta } = poissonRegression(data, { family: 'negative-binomial' });
    return {
      'negative binomial': seen(data, 1.8, 'negative-binomial').covers,
      quasi: seen(data, 1.8, 'quasi').covers,
      robust: seen(data, 1.8).robust,
      Poisson: seen(data, 1.8).covers,
      'negative binomial, likelihood ratio test of no effect':
        rejects(nothing(plan, random, 'negative-binomial').likelihoodRatio) ?? null,
      'quasi, F test of no effect': rejects(nothing(plan, random, 'quasi').likelihoodRatio) ?? null,
      'Poisson, likelihood ratio test of no effect': rejects(nothing(plan, random, 'poisson').likelihoodRatio) ?? null,
      'limits of θ': theta ? holds(theta, 1) : null,
    };
  },
};

const frailty: Study = {
  method: 'poissonRegression',
  setting:
    '120 vehicles of four wheel ends that share its rate (θ = 1), exposure by vehicle, rate ratio 1.8; not Poisson',
  claims: {
    robust: 'covers',
    'robust, negative binomial': 'covers',
    'robust Wald test of no effect': 'rejects at most',
    'Poisson, as if independent': 'falls short',
    'quasi, as if independent': 'falls short',
    'negative binomial, as if independent': 'falls short',
  },
  play(random) {
    const plan = { vehicles: 120, ends: 4, rate: 0.8, ratio: 1.8, spread: 1 };
    const data = drawCounts(plan, random);
    const poisson = seen(data, 1.8);
    const negative = seen(data, 1.8, 'negative-binomial');
    return {
      robust: poisson.robust,
      'robust, negative binomial': negative.robust,
      'robust Wald test of no effect': rejects(nothing(plan, random, 'poisson').robustWald) ?? null,
      'Poisson, as if independent': poisson.covers,
      'quasi, as if independent': seen(data, 1.8, 'quasi').covers,
      'negative binomial, as if independent': negative.covers,
    };
  },
};

/** Lives cut every 40 thousand miles, the rate constant in between: their hazard ratio is the rate ratio. */
function piecewise(fleet: Fleet) {
  const pieces = splitTime({ ...fleet, cluster: fleet.vehicle }, [40, 80, 120, 160, 200, 240]);
  const exposed = Float64Array.from(pieces.row, (row) => fleet.exposed[row] as number);
  const age = { levels: ['0', '40', '80', '120', '160', '200', '240'], codes: pieces.piece };
  return seen({ ...pieces, covariates: { exposed, age } }, 1.8);
}

const pieces = (setting: string, plan: FleetPlan, claims: Study['claims']): Study => ({
  method: 'poissonRegression',
  setting,
  shortRun: 40,
  claims,
  play(random) {
    const fleet = drawFleet({ ...plan, ratio: 1.8 }, random);
    const aged = piecewise(fleet);
    return { 'model-based': aged.covers, robust: aged.robust };
  },
});

export const countStudies: Study[] = [
  plain,
  sparse,
  overdispersed,
  frailty,
  pieces('Poisson pieces of lives, two in five entering late, hazard ratio 1.8', LATE_FLEET, {
    'model-based': 'covers',
    robust: 'covers',
  }),
  pieces(
    'Poisson pieces of lives, wheel ends of a vehicle sharing its fate (tau 0.4), exposure by vehicle, hazard ratio 1.8',
    { ...FRAIL_FLEET, exposedBy: 'vehicle' },
    { 'model-based': 'falls short', robust: 'covers' },
  ),
];
