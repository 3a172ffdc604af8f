import { createRandom } from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import { placesWhere } from '../gather.ts';
import type { SavingLives } from './saving-lives.ts';
import type { SavingStep } from './saving-plan.ts';

export const savingDraws = 400;
export const savingSeed = 20_261_130;
/** A late entrant stands for those like it that failed unseen; so many of them at most. */
const mostStoodFor = 10;
const daysAYear = 365.25;
/** The rate of failures now: that of the last two years, or of what was seen where that is less. */
const yearsCounted = 2;

/** What would be saved, by one reading of the estimates. */
export interface Saved {
  /** Failures fewer by the horizon, of 1,000 installations. */
  readonly perThousand: number;
  readonly perYear: number;
  /** Of the failures on record, the share fewer. */
  readonly share: number;
}

export interface SavedOf {
  readonly value: Saved;
  readonly draws: readonly Saved[];
}

/** All steps together, then each alone. */
export interface SavingResult {
  readonly together: SavedOf;
  readonly alone: readonly SavedOf[];
  /** Share of lives whose shop was watched to the horizon. */
  readonly watchedShare: number;
  /** Failures that the count of a year rests on, and its years; null where lives tell no days. */
  readonly counted: { readonly failures: number; readonly years: number } | null;
}

/** One reading of the estimates: weights of vehicles, log ratios of the steps. */
interface Reading {
  /** By vehicle. */
  readonly weight: Float64Array;
  readonly log: Float64Array;
}

/**
 * The saving at the estimates, and over draws of them: log ratios from their covariance (the wider of
 * the model's and the vehicles'), shares, mix and rate from vehicles weighted at random (Rubin 1981).
 */
export async function savingResult(
  asking: Asking,
  lives: SavingLives,
  steps: readonly SavingStep[],
): Promise<SavingResult> {
  const { signal, onProgress } = asking;
  const work = prepare(lives, steps);
  const estimates = Float64Array.from(steps, ({ deviation }) => lives.fit?.coefficients[deviation.term] ?? 0);
  const ones = new Float64Array(work.vehicles).fill(1);
  const sets = [steps.map((_, at) => at), ...(steps.length > 1 ? steps.map((_, at) => [at]) : [])];
  const at = (reading: Reading) => savedBySet(work, reading, estimates, sets);
  const value = at({ weight: ones, log: estimates });
  const draws: Saved[][] = [];
  const random = createRandom(savingSeed);
  const root = rootOf(covarianceOf(lives, steps), steps.length);
  for (let draw = 0; draw < savingDraws; draw++) {
    if (draw % 20 === 0) {
      onProgress?.({ done: draw, of: savingDraws, doing: 'drawing the estimates anew' });
      await breathe(signal);
    }
    const weight = ones.map(() => random.exponential());
    const normal = estimates.map(() => random.normal());
    const log = estimates.map((own, j) => {
      let moved = own;
      for (let k = 0; k <= j; k++) moved += (root[j * steps.length + k] as number) * (normal[k] as number);
      return moved;
    });
    draws.push(at({ weight, log }));
  }
  const of = (set: number): SavedOf => ({ value: value[set] as Saved, draws: draws.map((draw) => draw[set] as Saved) });
  return {
    together: of(0),
    alone: steps.length > 1 ? steps.map((_, step) => of(step + 1)) : steps.map(() => of(0)),
    watchedShare: work.watched / Math.max(1, lives.hazard.length),
    counted: work.counted,
  };
}

type Work = ReturnType<typeof prepare>;

function prepare(lives: SavingLives, steps: readonly SavingStep[]) {
  const { cluster, event, strata } = lives.causes.lives;
  const rows = event.length;
  const codes = steps.map(({ deviation }) => deviation.exposure.codes);
  // One bit a step that the life carries.
  const carried = Int32Array.from({ length: rows }, (_, at) =>
    codes.reduce((bits, own, step) => bits | (own[at] === 1 ? 1 << step : 0), 0),
  );
  const weight = Float64Array.from(lives.hazardAtEntry, (hazard) => Math.min(mostStoodFor, Math.exp(hazard)));
  const last = lives.seen?.to ?? NaN;
  const years = lives.seen === null ? NaN : Math.min(yearsCounted, (lives.seen.to - lives.seen.from) / daysAYear);
  const recent = Uint8Array.from(event, (one, at) =>
    one === 1 && (lives.endDay[at] as number) > last - years * daysAYear ? 1 : 0,
  );
  const told = !Number.isNaN(years) && years > 0 && !lives.endDay.every(Number.isNaN);
  return {
    ...{ lives, steps, codes, carried, weight, recent, years, told, rows },
    vehicles: cluster.levels.length,
    vehicle: cluster.codes,
    shop: strata.codes,
    exposed: placesWhere(rows, (at) => carried[at] !== 0),
    failed: placesWhere(rows, (at) => event[at] === 1),
    watched: lives.hazard.reduce((sum, hazard) => sum + (Number.isNaN(hazard) ? 0 : 1), 0),
    counted: told ? { failures: recent.reduce((sum, one) => sum + one, 0), years } : null,
  };
}

/** Share of the jobs with each step's deviation from which it would go. */
function goneShares({ steps, codes, vehicle, shop, rows }: Work, { weight }: Reading): Float64Array {
  return Float64Array.from(steps, ({ to, best }, step) => {
    let [withIt, told, bestWith, bestTold] = [0, 0, 0, 0];
    const own = codes[step] as Int32Array;
    for (let at = 0; at < rows; at++) {
      const code = own[at] as number;
      if (code !== 0 && code !== 1) continue;
      const counts = weight[vehicle[at] as number] as number;
      told += counts;
      if (code === 1) withIt += counts;
      if (shop[at] !== best?.shop) continue;
      bestTold += counts;
      if (code === 1) bestWith += counts;
    }
    const target = to === 'best-shop' ? bestWith / bestTold : to;
    const share = withIt / told;
    return share > target ? 1 - target / share : 0;
  });
}

/** What remains of the hazard of each combination of deviations once each is gone from its share of jobs: every outcome with its chance. */
function outcomesOf(
  bits: number,
  set: readonly number[],
  gone: Float64Array,
  log: Float64Array,
): { chance: number; ratio: number }[] {
  let outcomes = [{ chance: 1, ratio: 1 }];
  for (const step of set) {
    if ((bits & (1 << step)) === 0) continue;
    const [share, without] = [gone[step] as number, Math.exp(-(log[step] as number))];
    outcomes = outcomes.flatMap(({ chance, ratio }) => [
      { chance: chance * (1 - share), ratio },
      { chance: chance * share, ratio: ratio * without },
    ]);
  }
  return outcomes;
}

function savedBySet(
  work: Work,
  reading: Reading,
  estimates: Float64Array,
  sets: readonly (readonly number[])[],
): Saved[] {
  const { lives, carried, vehicle, exposed, failed, recent, weight: stands } = work;
  const { weight, log } = reading;
  const gone = goneShares(work, reading);
  const level = levelOfHazard(work, reading, estimates);
  let [installed, failures] = [0, 0];
  for (let at = 0; at < work.rows; at++)
    if (!Number.isNaN(lives.hazard[at]))
      installed += (weight[vehicle[at] as number] as number) * (stands[at] as number);
  for (const at of failed) failures += weight[vehicle[at] as number] as number;
  return sets.map((set) => {
    const known = new Map<number, ReturnType<typeof outcomesOf>>();
    const outcomes = (bits: number) => {
      const found = known.get(bits) ?? outcomesOf(bits, set, gone, log);
      known.set(bits, found);
      return found;
    };
    let [fewer, avoided, lately] = [0, 0, 0];
    for (const at of exposed) {
      const own = weight[vehicle[at] as number] as number;
      const bits = carried[at] as number;
      const after = outcomes(bits);
      const hazard = (lives.hazard[at] as number) * level * movedBy(bits, log, estimates);
      if (!Number.isNaN(hazard)) {
        const survived = after.reduce((sum, { chance, ratio }) => sum + chance * Math.exp(-hazard * ratio), 0);
        fewer += own * (stands[at] as number) * (survived - Math.exp(-hazard));
      }
      if (lives.causes.lives.event[at] !== 1) continue;
      const less = own * (1 - after.reduce((sum, { chance, ratio }) => sum + chance * ratio, 0));
      avoided += less;
      if (recent[at] === 1) lately += less;
    }
    return {
      perThousand: installed > 0 ? (1000 * fewer) / installed : NaN,
      perYear: work.told ? lately / work.years : NaN,
      share: failures > 0 ? avoided / failures : NaN,
    };
  });
}

function movedBy(bits: number, log: Float64Array, estimates: Float64Array): number {
  let moved = 0;
  for (let step = 0; step < log.length; step++)
    if ((bits & (1 << step)) !== 0) moved += (log[step] as number) - (estimates[step] as number);
  return moved === 0 ? 1 : Math.exp(moved);
}

/** The factor on every baseline under which the failures expected are as many as those seen. */
function levelOfHazard(
  { lives, rows, vehicle, carried }: Work,
  { weight, log }: Reading,
  estimates: Float64Array,
): number {
  const { event } = lives.causes.lives;
  let [seen, expected] = [0, 0];
  for (let at = 0; at < rows; at++) {
    const own = weight[vehicle[at] as number] as number;
    seen += own * (event[at] as number);
    expected += own * (lives.expected[at] as number) * movedBy(carried[at] as number, log, estimates);
  }
  return expected > 0 ? seen / expected : 1;
}

/** Of the steps' log ratios: the vehicle-robust covariance, widened where the model's variance is larger. */
function covarianceOf({ fit }: SavingLives, steps: readonly SavingStep[]): Float64Array {
  const size = steps.length;
  const matrix = new Float64Array(size * size);
  if (!fit) return matrix;
  const width = fit.terms.length;
  const robust = fit.robustCovariance ?? fit.covariance;
  const terms = steps.map(({ deviation }) => deviation.term);
  const wider = terms.map((term) =>
    Math.sqrt(Math.max(1, (fit.covariance[term * width + term] as number) / (robust[term * width + term] as number))),
  );
  terms.forEach((row, j) =>
    terms.forEach((column, k) => {
      matrix[j * size + k] = (robust[row * width + column] as number) * (wider[j] as number) * (wider[k] as number);
    }),
  );
  return matrix;
}

/** Lower triangle whose product with its own transpose is the matrix; a direction without variance stays at rest. */
function rootOf(matrix: Float64Array, size: number): Float64Array {
  const root = new Float64Array(size * size);
  for (let j = 0; j < size; j++)
    for (let k = 0; k <= j; k++) {
      let rest = matrix[j * size + k] as number;
      for (let m = 0; m < k; m++) rest -= (root[j * size + m] as number) * (root[k * size + m] as number);
      const pivot = root[k * size + k] as number;
      root[j * size + k] = j === k ? Math.sqrt(Math.max(0, rest)) : pivot > 0 ? rest / pivot : 0;
    }
  return root;
}
