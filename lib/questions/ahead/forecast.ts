import type { Estimate, Group } from '../../../shared/finding.ts';
import {
  createRandom,
  drawnLimits,
  drawnShare,
  drawParameters,
  fittedHazard,
  forecastFailures,
  sharedHazardVariance,
  standardizedRatio,
  withSharedHazard,
  type Random,
} from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { toEstimate, noEstimate } from '../estimate.ts';
import { firmnessOfOne, firmnessRule } from '../firmness.ts';
import { consequencesOf, meanFailureCost, shareOf, type ToldCounts } from '../fitted/consequences.ts';
import { withWiderErrors } from '../fitted/fitted-lives.ts';
import { gather } from '../gather.ts';
import { ended } from '../life-rows.ts';
import type { AheadEvidence } from './ahead-evidence.ts';
import type { FittedKind } from './kinds.ts';

const draws = 1000;
/** Classes of like chance drawn for, over all kinds and groups together. */
const mostClasses = 1200;

/** What is to come, life by life and draw by draw. */
export interface AheadForecast {
  /** Chance of each running life to fail ahead, by place; 0 elsewhere. */
  readonly chance: Float64Array;
  /** The same under one shape, where two parts were called for. */
  readonly oneShape: Float64Array;
  /** Failures drawn for each group, those that the table leaves out together behind the others. */
  readonly drawn: readonly Float64Array[];
  /** Failures expected of each aged life while it was watched, by place. */
  readonly seen: Float64Array;
  /** Variance of what wheel ends of one vehicle share. */
  readonly shared: number;
  readonly random: Random;
  /** Running lives whose age and miles ahead go past what was watched of their kind. */
  readonly beyond: Int32Array;
}

/** Every kind's running lives forecast by its fit; groups share the draws of a kind's parameters. */
export function forecastAhead(evidence: AheadEvidence, kinds: readonly FittedKind[], seed: number): AheadForecast {
  const { lives, keys, aheadMiles } = evidence;
  const random = createRandom(seed);
  const groups = keys.groups.length + 1;
  const [chance, oneShape, seen] = [0, 1, 2].map(() => new Float64Array(lives.rows)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const drawn = Array.from({ length: groups }, () => new Float64Array(draws));
  const beyond: number[] = [];
  const classes = Math.max(10, Math.floor(mostClasses / Math.max(1, groups * kinds.length)));
  for (const kind of kinds) {
    const fit = withWiderErrors(kind.fits.used);
    const parameters = drawParameters(fit, { random, draws });
    const expected = fittedHazard(fit, { entry: gather(lives.entry, kind.aged), exit: gather(lives.exit, kind.aged) });
    kind.aged.forEach((place, at) => (seen[place] = expected[at] as number));
    const running = kind.running.filter((place) => !Number.isNaN(aheadMiles[place]));
    for (let group = 0; group < groups; group++) {
      const places = running.filter((place) => lives.group[place] === group);
      if (places.length === 0) continue;
      const units = { age: gather(lives.exit, places), ahead: gather(aheadMiles, places) };
      const forecast = forecastFailures(fit, units, { random, parameters, draws, classes });
      const one =
        kind.fits.used === kind.fits.weibull
          ? null
          : forecastFailures(kind.fits.weibull, units, { random: createRandom(1), draws: 200, classes: 1 });
      places.forEach((place, at) => {
        chance[place] = forecast.probability[at] as number;
        oneShape[place] = (one ?? forecast).probability[at] as number;
        if ((lives.exit[place] as number) + (aheadMiles[place] as number) > kind.watchedTo) beyond.push(place);
      });
      const sums = drawn[group] as Float64Array;
      forecast.drawn.forEach((total, draw) => (sums[draw] = (sums[draw] as number) + total));
    }
  }
  return { chance, oneShape, drawn, seen, shared: sharedOf(evidence, seen), random, beyond: Int32Array.from(beyond) };
}

function sharedOf({ aged, lives }: AheadEvidence, seen: Float64Array): number {
  return sharedHazardVariance({
    observed: gather(lives.ended, aged).map((code) => (code === ended.failed ? 1 : 0)),
    expected: gather(seen, aged),
    cluster: gather(lives.unit, aged),
  });
}

/** What is to come of some groups together. */
export interface AheadTotals {
  readonly places: Int32Array;
  readonly estimates: Readonly<Record<string, Estimate>>;
}

const sum = (column: ArrayLike<number>): number => Array.from(column).reduce((total, one) => total + one, 0);

/** Failures, soaked linings and cost of the running lives of some groups, with the chance vehicles share. */
export function totalsOf(
  evidence: AheadEvidence,
  forecast: AheadForecast,
  groups: readonly number[],
  { view }: Asking,
): AheadTotals {
  const { lives, running, aged } = evidence;
  const inside = new Set(groups);
  const within = (place: number) => inside.has(lives.group[place] as number);
  const places = running.filter(within);
  const own = gather(forecast.chance, places);
  const base = new Float64Array(draws);
  for (const group of groups)
    forecast.drawn[group]?.forEach((total, draw) => (base[draw] = (base[draw] as number) + total));
  const shared = { drawn: base, expected: own, cluster: gather(lives.unit, places) };
  const failures = withSharedHazard(shared, forecast.shared, forecast.random);
  const failed = (among: Int32Array) =>
    gather(
      evidence.rows,
      among.filter((place) => lives.ended[place] === ended.failed),
    );
  const [ofGroup, ofAll] = [failed(aged.filter(within)), failed(aged)].map((rows) =>
    consequencesOf(evidence.consequences, rows),
  ) as [ReturnType<typeof consequencesOf>, ReturnType<typeof consequencesOf>];
  const told = (name: 'lining' | 'roadCall'): ToldCounts =>
    ofGroup[name].yes + ofGroup[name].no < firmnessRule.fairFailures ? ofAll[name] : ofGroup[name];
  const [lining, roadCall] = [told('lining'), shareOf(told('roadCall')) ?? 0];
  const liningShare = shareOf(lining);
  const soaked =
    liningShare === null
      ? null
      : drawnShare(failures, { events: lining.yes, total: lining.yes + lining.no }, forecast.random);
  const expected = sum(own);
  const cost = failures.map(
    (total, draw) => total * meanFailureCost(view, 0, roadCall) + (soaked?.[draw] ?? 0) * view.liningCost,
  );
  const about = (unit: string) => ({
    ...{ level: view.level, unit },
    method:
      'fitted life given the age now; prediction limits: error of the fit, chance, and what wheel ends of one vehicle share',
  });
  const told1 = (value: number, drawn: Float64Array, unit: string) =>
    toEstimate({ value, ...drawnLimits(drawn, view.level) }, about(unit));
  return {
    places,
    estimates: {
      expectedFailures: told1(expected, failures.slice(), 'failures'),
      expectedSoakedLinings:
        soaked === null || liningShare === null
          ? noEstimate({ ...about('linings'), reason: 'too few failures say whether the lining was soaked' })
          : told1(expected * liningShare, soaked.slice(), 'linings'),
      expectedCost: told1(expected * meanFailureCost(view, liningShare ?? 0, roadCall), cost, 'money'),
      observedToExpected: seenAgainstFit(evidence, forecast, aged.filter(within), view.level),
    },
  };
}

/** How the fits tell the past of these lives: failures seen over those the fits expect. */
function seenAgainstFit(
  { lives }: AheadEvidence,
  { seen }: AheadForecast,
  places: Int32Array,
  level: number,
): Estimate {
  const about = { level, unit: 'ratio', method: 'failures seen over those the fit expects, exact' };
  const observed = places.reduce((total, place) => total + (lives.ended[place] === ended.failed ? 1 : 0), 0);
  const expected = sum(gather(seen, places));
  if (!(expected > 0)) return noEstimate({ ...about, reason: 'nothing was watched' });
  return toEstimate(standardizedRatio({ observed, expected }, { level }), about);
}

export function aheadGroup(
  evidence: AheadEvidence,
  forecast: AheadForecast,
  group: number,
  asking: Asking,
): Group | null {
  const { lives, keys, aheadMiles, aged } = evidence;
  const key = keys.groups[group];
  const { places, estimates } = totalsOf(evidence, forecast, [group], asking);
  if (!key || places.length === 0) return null;
  const failures = aged.reduce(
    (total, place) => total + (lives.group[place] === group && lives.ended[place] === ended.failed ? 1 : 0),
    0,
  );
  const { lower, upper } = estimates['expectedFailures'] as Estimate;
  return {
    ...{ label: key.label, by: { ...key.by }, lives: places.length, failures },
    miles: sum(gather(lives.exposureMiles, places)),
    firmness: firmnessOfOne(failures, { lower, upper }),
    counts: { vehicles: new Set(gather(lives.unit, places)).size, aheadMiles: sum(gather(aheadMiles, places)) },
    estimates: { ...estimates },
  };
}
