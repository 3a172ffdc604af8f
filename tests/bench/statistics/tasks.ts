import {
  coxRegression,
  cumulativeIncidence,
  fitLife,
  kaplanMeier,
  logRank,
  proportionalHazardsTest,
  restrictedMean,
  turnbull,
  weibullRegression,
  type SurvivalCurve,
} from '../../../lib/statistics/index.ts';
import type { MillionLives } from './million-lives.ts';
import { kuhnTuckerGap } from './kuhn-tucker-gap.ts';

/** What one line of the table times. The same name in statistics.R is the same work in R, where R can do it. */
export interface Task {
  readonly label: string;
  /** Bytes of the columns handed over. */
  readonly input: (lives: MillionLives) => ArrayBufferView[];
  /** Does the work; what it returns yields the numbers to be compared with R's, in R's order. */
  readonly run: (lives: MillionLives) => () => ArrayLike<number>;
  /** Least ratio to R's time. */
  readonly floor?: number;
  /** Most seconds, where R has nothing to compare with. */
  readonly within?: number;
  /** Most time as a multiple of another task's. */
  readonly most?: { readonly times: number; readonly of: string };
}

const HORIZON_MILES = 100_000;
const INTERVALS = 100_000;

const columns = ({ exit, event, entry, group }: MillionLives) => [exit, event, entry, group.codes];
const covariates = ({ binary }: MillionLives) => Object.values(binary);

/** Eleven yes/no covariates and a continuous one: no two lives have the same row of the design. */
const withLoad = ({ binary, load }: MillionLives) => {
  const { x12: _, ...eleven } = binary;
  return { ...eleven, load };
};

const flat = (parts: readonly ArrayLike<number>[]): Float64Array =>
  Float64Array.from(parts.flatMap((part) => [...Array.from(part)]));

const curveNumbers = (curves: readonly SurvivalCurve[]) => {
  const all = curves.flatMap(({ survival, standardError, lower, upper }) => [survival, standardError, lower, upper]);
  const whole = new Float64Array(all.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of all) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

const firstIntervals = ({ lower, upper, exit, event }: MillionLives, exactOneIn: number) => {
  const spans = { lower: lower.slice(0, INTERVALS), upper: upper.slice(0, INTERVALS) };
  for (let row = 0; exactOneIn > 0 && row < INTERVALS; row += exactOneIn)
    if (event[row] === 1) spans.lower[row] = spans.upper[row] = exit[row] as number;
  return spans;
};

export const tasks: Readonly<Record<string, Task>> = {
  kaplanMeier: {
    label: 'kaplanMeier, 12 groups, late entry, limits',
    input: columns,
    run: ({ exit, event, entry, group }) => {
      const curves = kaplanMeier({ exit, event, entry, group });
      return () => curveNumbers(curves);
    },
    floor: 10,
  },
  kaplanMeierCluster: {
    label: '  … and robust by 100,000 vehicles',
    input: (lives) => [...columns(lives), lives.vehicle],
    run: ({ exit, event, entry, group, vehicle }) => {
      const curves = kaplanMeier({ exit, event, entry, group, cluster: vehicle });
      return () => flat(curves.map(({ survival }) => survival));
    },
  },
  restrictedMean: {
    label: `restrictedMean to ${HORIZON_MILES} with its 12 curves`,
    input: columns,
    run: ({ exit, event, entry, group }) => {
      const means = kaplanMeier({ exit, event, entry, group }).map((curve) => restrictedMean(curve, HORIZON_MILES));
      return () => means.flatMap(({ value, standardError }) => [value ?? NaN, standardError ?? NaN]);
    },
  },
  logRank: {
    label: 'logRank, 12 groups',
    input: ({ exit, event, group }) => [exit, event, group.codes],
    run: ({ exit, event, group }) => {
      const test = logRank({ exit, event, group });
      return () => [test.statistic ?? NaN, ...test.observed, ...test.expected, ...test.variance];
    },
    floor: 10,
  },
  logRankLate: {
    label: '  … with late entry',
    input: columns,
    run: ({ exit, event, entry, group }) => {
      const test = logRank({ exit, event, entry, group });
      return () => [test.statistic ?? NaN];
    },
  },
  cumulativeIncidence: {
    label: 'cumulativeIncidence, 12 groups, 2 causes, late entry, limits',
    input: columns,
    run: ({ exit, cause, entry, group }) => {
      const curves = cumulativeIncidence({ exit, event: cause, entry, group });
      return () => flat(curves.map(({ incidence }) => incidence));
    },
  },
  cox: {
    label: 'coxRegression, Efron, 12 covariates, late entry',
    input: (lives) => [...columns(lives).slice(0, 3), ...covariates(lives)],
    run: ({ exit, event, entry, binary }) => {
      const { coefficients, standardErrors, logLikelihood, concordance } = coxRegression({
        ...{ exit, event, entry, covariates: binary },
      });
      return () => [...coefficients, ...standardErrors, logLikelihood, concordance?.value ?? NaN];
    },
    floor: 5,
  },
  coxCluster: {
    label: '  … and robust by 100,000 vehicles',
    input: (lives) => [...columns(lives).slice(0, 3), lives.vehicle, ...covariates(lives)],
    run: ({ exit, event, entry, binary, vehicle }) => {
      const { coefficients } = coxRegression({ exit, event, entry, covariates: binary, cluster: vehicle });
      return () => coefficients;
    },
    most: { times: 1.5, of: 'cox' },
  },
  coxContinuous: {
    label: 'coxRegression, Efron, 11 covariates and a continuous one',
    input: (lives) => [...columns(lives).slice(0, 3), ...covariates(lives)],
    run: (lives) => {
      const { exit, event, entry } = lives;
      const { coefficients, standardErrors, logLikelihood, concordance } = coxRegression({
        ...{ exit, event, entry, covariates: withLoad(lives) },
      });
      return () => [...coefficients, ...standardErrors, logLikelihood, concordance?.value ?? NaN];
    },
    floor: 5,
  },
  proportionalHazards: {
    label: 'proportionalHazardsTest with its fit',
    input: (lives) => [...columns(lives).slice(0, 3), ...covariates(lives)],
    run: ({ exit, event, entry, binary }) => {
      const { statistic, global } = proportionalHazardsTest({ exit, event, entry, covariates: binary });
      return () => [...statistic, global.statistic];
    },
  },
  fitLife: {
    label: 'fitLife, Weibull',
    input: ({ exit, event }) => [exit, event],
    run: ({ exit, event }) => {
      const { working, logLikelihood } = fitLife({ exit, event }, { distribution: 'weibull' });
      const errors = [0, 3].map((at) => Math.sqrt(working.covariance?.[at] ?? NaN));
      return () => [...working.values, ...errors, logLikelihood];
    },
  },
  fitLifeLate: {
    label: '  … with late entry',
    input: ({ exit, event, entry }) => [exit, event, entry],
    run: ({ exit, event, entry }) => {
      const { working } = fitLife({ exit, event, entry }, { distribution: 'weibull' });
      return () => working.values;
    },
  },
  weibull: {
    label: 'weibullRegression, 12 covariates',
    input: (lives) => [lives.exit, lives.event, ...covariates(lives)],
    run: ({ exit, event, binary }) => {
      const { coefficients, standardErrors, logLikelihood, spread } = weibullRegression({
        ...{ exit, event, covariates: binary },
      });
      return () => [...coefficients, ...standardErrors, logLikelihood, spread.value];
    },
    floor: 5,
  },
  weibullContinuous: {
    label: 'weibullRegression, 11 covariates and a continuous one',
    input: (lives) => [lives.exit, lives.event, ...covariates(lives)],
    run: (lives) => {
      const { coefficients, standardErrors, logLikelihood, spread } = weibullRegression({
        ...{ exit: lives.exit, event: lives.event, covariates: withLoad(lives) },
      });
      return () => [...coefficients, ...standardErrors, logLikelihood, spread.value];
    },
    floor: 5,
  },
  weibullCluster: {
    label: 'weibullRegression, 12 covariates, robust by 100,000 vehicles',
    input: (lives) => [lives.exit, lives.event, lives.vehicle, ...covariates(lives)],
    run: ({ exit, event, vehicle, binary }) => {
      const { coefficients, robustStandardErrors } = weibullRegression({
        ...{ exit, event, covariates: binary, cluster: vehicle },
      });
      return () => [...coefficients, ...(robustStandardErrors ?? [])];
    },
    most: { times: 1.5, of: 'weibull' },
  },
  weibullLate: {
    label: 'weibullRegression, 12 covariates, late entry',
    input: (lives) => [...columns(lives).slice(0, 3), ...covariates(lives)],
    run: ({ exit, event, entry, binary }) => {
      const { coefficients } = weibullRegression({ exit, event, entry, covariates: binary });
      return () => coefficients;
    },
  },
  turnbull: {
    label: 'turnbull, 100,000 intervals',
    input: () => [new Float64Array(2 * INTERVALS)],
    run: (lives) => {
      const spans = firstIntervals(lives, 0);
      const { intervals } = turnbull(spans);
      return () => [kuhnTuckerGap(spans, intervals)];
    },
    within: 10,
  },
  turnbullExact: {
    label: '  … a third of the failures exact',
    input: () => [new Float64Array(2 * INTERVALS)],
    run: (lives) => {
      const spans = firstIntervals(lives, 3);
      const { intervals } = turnbull(spans);
      return () => [kuhnTuckerGap(spans, intervals)];
    },
    within: 10,
  },
};
