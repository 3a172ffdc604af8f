import { toLevel } from './interval.ts';
import type { Interval } from './interval.ts';
import { LIFE_MODELS, type LifeModel } from './life-model.ts';
import {
  drawParameters,
  drawQuantile,
  reasonAgainstFit,
  type DrawOptions,
  type FittedLife,
} from './parameter-draws.ts';
import { cheapestAge } from './replacement-age.ts';
import { StatisticsError } from './statistics-error.ts';

export interface ReplacementOptions extends DrawOptions {
  /** Cost of a planned replacement, and of a failure with all that follows from it; in one currency. */
  readonly plannedCost: number;
  readonly failureCost: number;
  readonly level?: number;
  /** Extra cost over the least that still counts as flat, default 0.05. */
  readonly flatWithin?: number;
  /** Ages at which the cost curve is wanted; default 100 up to the age by which 99 % have failed. */
  readonly ages?: ArrayLike<number>;
}

export interface ReplacementInterval {
  /** Whether planned replacement is shown to pay: the interval of `saving` lies above zero. */
  readonly recommended: boolean;
  /** Why not, when it is not. */
  readonly reason: string | null;
  /** Age of planned replacement with the least cost per unit of age; null when it is not recommended, a null limit is unbounded. */
  readonly age: Interval;
  /** Age with the least cost, recommended or not; null where none beats running to failure. */
  readonly leastCostAge: number | null;
  /** Cost per unit of age at the least-cost age and when run to failure. */
  readonly costRate: Interval;
  readonly runToFailure: Interval;
  /** Share of the run-to-failure cost saved by replacing at the least-cost age, with its interval at that same age. */
  readonly saving: Interval;
  /** The same per unit of age, in the currency given. */
  readonly savingRate: Interval;
  /** Ages between which the cost stays within `flatWithin` of the least; a null end is run to failure. */
  readonly flat: { readonly from: number | null; readonly to: number | null; readonly within: number };
  readonly curve: {
    readonly age: Float64Array;
    readonly costRate: Float64Array;
    readonly lower: Float64Array;
    readonly upper: Float64Array;
    /** Share of the run-to-failure cost saved by replacing at each age, less than zero where it costs more. */
    readonly saving: Float64Array;
    readonly savingLower: Float64Array;
    readonly savingUpper: Float64Array;
  };
  /** Share of the fitted mean life that lies beyond what was observed: so much of the run-to-failure cost rests on the shape of the distribution alone. */
  readonly meanBeyondObserved: number;
  /** Share of the parameter draws for which no planned age beats running to failure. */
  readonly shareWithoutOptimum: number;
}

/**
 * Age-replacement policy: replace at age a or at failure, whichever is first. Its long-run cost per
 * unit of age is (c_planned S(a) + c_failure F(a)) / ∫₀^a S(t) dt, against c_failure / mean life
 * when run to failure. Uncertainty of the fit is carried through by draws of its parameters; the
 * saving is judged at the one age that would be ordered, so it can be negative and its interval can
 * hold zero: then nothing is recommended.
 *
 * @param fit a result of fitLife (with clusters the robust covariance is used).
 * @returns costs in the currency given per unit of the fit's time.
 * @throws StatisticsError on costs that are not positive, bad level, draws or ages. A fit that cannot
 *   be planned on, and a failure that costs no more than a planned replacement, are not recommended, with the reason.
 * Source: Barlow & Proschan (1965), Mathematical Theory of Reliability, §4.2. Outside check: worked
 * by hand and by quadrature, 1e-6 (tests/statistics/replacement-interval.test.ts).
 */
export function replacementInterval(fit: FittedLife, options: ReplacementOptions): ReplacementInterval {
  const level = toLevel(options.level);
  const { plannedCost, failureCost } = options;
  for (const [name, cost] of Object.entries({ plannedCost, failureCost }))
    if (!(cost > 0 && cost < Infinity)) throw new StatisticsError(name, `${cost} is not a cost above zero`);
  const within = options.flatWithin ?? 0.05;
  if (!(within > 0)) throw new StatisticsError('flatWithin', `${within} is not above zero`);
  const model = LIFE_MODELS[fit.distribution];
  const policy = { model, plannedCost, failureCost };
  const against = reasonAgainstFit(fit);
  const values = fit.working.values;
  const best = cheapestAge((age) => costRate(policy, age, values), model, values, within);
  const draws = against === null ? drawParameters(fit, options) : [];
  const limits = (of: (working: Float64Array) => number) => limitsOf(draws.map(of), level);
  const rateAt = (age: number): Interval => {
    return { value: costRate(policy, age, values), ...limits((working) => costRate(policy, age, working)) };
  };
  const forever = (working: ArrayLike<number>) => costRate(policy, Infinity, working);
  const savedAt = (age: number, working: ArrayLike<number>) => forever(working) - costRate(policy, age, working);
  const savingAt = (age: number): Interval => {
    const share = (working: ArrayLike<number>) => savedAt(age, working) / forever(working);
    return { value: share(values), ...limits(share) };
  };
  const saving = best.age === Infinity ? nothing : savingAt(best.age);
  const savedAtBest = (working: ArrayLike<number>) => savedAt(best.age, working);
  const bestOfDraws = draws.map(
    (working) => cheapestAge((age) => costRate(policy, age, working), model, working, null).age,
  );
  const reason = against ?? reasonAgainstPlan(policy, best.age, saving, level);
  const ages = toAges(options.ages, model, values);
  const bands = Array.from(ages, rateAt);
  const savings = Array.from(ages, savingAt);
  const column = (from: readonly Interval[], limit: keyof Interval, missing: number) =>
    Float64Array.from(from, (interval) => interval[limit] ?? missing);
  return {
    recommended: reason === null,
    reason,
    age: reason === null ? { value: best.age, ...limitsOf(bestOfDraws, level) } : nothing,
    leastCostAge: finite(best.age),
    costRate: rateAt(best.age),
    runToFailure: rateAt(Infinity),
    saving,
    savingRate: best.age === Infinity ? nothing : { value: savedAtBest(values), ...limits(savedAtBest) },
    flat: { from: finite(best.flatFrom), to: finite(best.flatTo), within },
    curve: {
      age: ages,
      costRate: column(bands, 'value', 0),
      lower: column(bands, 'lower', 0),
      upper: column(bands, 'upper', Infinity),
      saving: column(savings, 'value', 0),
      savingLower: column(savings, 'lower', -Infinity),
      savingUpper: column(savings, 'upper', 1),
    },
    meanBeyondObserved: 1 - model.meanUpTo(fit.observedTo, values) / model.meanUpTo(Infinity, values),
    shareWithoutOptimum: bestOfDraws.filter((age) => age === Infinity).length / Math.max(1, draws.length),
  };
}

interface Policy {
  readonly model: LifeModel;
  readonly plannedCost: number;
  readonly failureCost: number;
}

function costRate({ model, plannedCost, failureCost }: Policy, age: number, working: ArrayLike<number>): number {
  const survival = age === Infinity ? 0 : Math.exp(model.logSurvival(age, working));
  return (plannedCost * survival + failureCost * (1 - survival)) / model.meanUpTo(age, working);
}

const nothing: Interval = { value: null, lower: null, upper: null };
const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

function limitsOf(values: number[], level: number): { lower: number | null; upper: number | null } {
  if (values.length === 0) return { lower: null, upper: null };
  const sorted = Float64Array.from(values).sort();
  const at = (share: number) => finite(drawQuantile(sorted, share));
  return { lower: at((1 - level) / 2), upper: at((1 + level) / 2) };
}

function reasonAgainstPlan(policy: Policy, age: number, saving: Interval, level: number): string | null {
  if (policy.failureCost <= policy.plannedCost)
    return 'a failure costs no more than a planned replacement, so there is nothing to save';
  if (age === Infinity) return 'the fitted hazard does not rise enough: no planned age beats running to failure';
  const percent = Math.round(level * 1000) / 10;
  return (saving.lower ?? -1) > 0 ? null : `the ${percent}\u00a0% interval for the saving does not exclude zero`;
}

function toAges(ages: ArrayLike<number> | undefined, model: LifeModel, working: ArrayLike<number>): Float64Array {
  if (!ages) return defaultAges(model, working);
  return Float64Array.from(ages, (age, row) => {
    if (!(age > 0 && age < Infinity)) throw new StatisticsError('ages', `${age} is not an age above zero`, row);
    return age;
  });
}

function defaultAges(model: LifeModel, working: ArrayLike<number>): Float64Array {
  let far = model.meanUpTo(Infinity, working);
  while (model.logSurvival(far, working) > Math.log(0.01)) far *= 1.05;
  while (model.logSurvival(far / 1.05, working) < Math.log(0.01)) far /= 1.05;
  return Float64Array.from({ length: 100 }, (_, k) => (far * (k + 1)) / 100);
}
