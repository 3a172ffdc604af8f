import { coxRegression, coxTimeSplit } from '../../lib/statistics/index.ts';
import { createRandom, type Random } from '../../lib/statistics/numeric/random.ts';
import type { Life } from '../questions/fleet.ts';

/**
 * Seals of a fleet as a lives table has them: three shops and two duties that differ in baseline and in how often they
 * cock a seal, vehicles that share a fate (gamma frailty), late entry, records that end. A cocked seal fails at
 * `early` times the hazard up to 25,000 miles and at `later` times after. Some are written down wrongly, some not at
 * all. The decoy goes with the same shops and does nothing.
 */
export interface PairedPlan {
  readonly vehicles: number;
  readonly early: number;
  readonly later: number;
  readonly frailty: number;
  /** Share of cocked seals written down as none. */
  readonly missed: number;
  readonly unknown: number;
}

export const PAIRED_PLAN: PairedPlan = {
  ...{ vehicles: 400, early: 3, later: 1.5, frailty: 0.3, missed: 0.1, unknown: 0.15 },
};

const horizon = 100_000;
const cut = 25_000;
const [shape, ends, installs] = [1.4, 4, 2];
const shops = ['Ambleford', 'Brackwell', 'Coldmere'];
const scale = [420_000, 260_000, 340_000];
const hardRatio = 1.6;
const cockedShare = [
  [0.06, 0.12],
  [0.2, 0.35],
  [0.12, 0.2],
] as const;
const decoyShare = [0.1, 0.4, 0.2];

interface Drawn {
  readonly vehicle: number;
  readonly end: number;
  readonly shop: number;
  readonly hard: 0 | 1;
  readonly cocked: boolean;
  readonly said: 'yes' | 'no' | 'unknown';
  readonly decoy: boolean;
  /** Cumulative hazard at which the seal fails. */
  readonly reached: number;
  readonly frailty: number;
  readonly entry: number;
  readonly stops: number;
}

function* drawn(plan: PairedPlan, vehicles: number, random: Random): Generator<Drawn> {
  for (let vehicle = 0; vehicle < vehicles; vehicle++) {
    const frailty = random.gamma(1 / plan.frailty) * plan.frailty;
    const hard = random.uniform() < 0.4 ? 1 : 0;
    const home = random.below(3);
    for (let place = 0; place < ends * installs; place++) {
      const shop = random.uniform() < 0.8 ? home : random.below(3);
      const cocked = random.uniform() < (cockedShare[shop] as readonly number[])[hard]!;
      const missed = random.uniform() < plan.missed;
      const known = random.uniform() >= plan.unknown;
      const late = random.uniform() < 0.3;
      yield {
        ...{ vehicle, end: place % ends, shop, hard, cocked, frailty },
        said: !known ? 'unknown' : cocked && !missed ? 'yes' : 'no',
        decoy: random.uniform() < (decoyShare[shop] as number),
        reached: random.exponential(),
        entry: (late ? 60_000 : 0) * random.uniform(),
        stops: 40_000 + 260_000 * random.uniform(),
      };
    }
  }
}

/** Age at which a seal fails, cocked or not. */
function ageAt(plan: PairedPlan, { shop, hard, frailty, reached }: Drawn, cocked: boolean): number {
  const level = frailty * (hard === 1 ? hardRatio : 1);
  const atCut = level * (cut / (scale[shop] as number)) ** shape;
  const hazard = !cocked
    ? reached
    : reached <= plan.early * atCut
      ? reached / plan.early
      : atCut + (reached - plan.early * atCut) / plan.later;
  return (scale[shop] as number) * (hazard / level) ** (1 / shape);
}

/** The fleet as rows of a lives table. */
export function pairedLives(plan: PairedPlan, random: Random): Life[] {
  const lives: Life[] = [];
  for (const one of drawn(plan, plan.vehicles, random)) {
    const age = ageAt(plan, one, one.cocked);
    const exit = Math.min(age, one.stops);
    if (exit <= one.entry) continue;
    lives.push({
      ...{ unit_id: `U${one.vehicle}`, axle: one.end < 2 ? 1 : 2, side: one.end % 2 === 0 ? 'left' : 'right' },
      ...{ shop: shops[one.shop] as string, duty: one.hard === 1 ? 'city-stop' : 'linehaul' },
      ...{ role: 'drive', lubricant: 'oil', hub_build: 'adjusted', install_date: '2021-03-04' },
      ...{ entry_miles: one.entry, exit_miles: exit, state: age <= one.stops ? 'failed' : 'running' },
      ...{ mode: age <= one.stops ? 'seal-inner' : null },
      ...{ dev_seal_cocked: one.said, dev_dirty_cavity: one.decoy ? 'yes' : 'no' },
    });
  }
  return lives;
}

/** The true value of each estimand, by lives played twice: as if said to be cocked, and as if said not to be. */
export interface PairedTruth {
  readonly hazardRatio: number;
  readonly earlyHazardRatio: number;
  readonly laterHazardRatio: number;
  readonly restrictedMeanDifference: number;
  readonly failedByHorizonHadNoneBeenRenewed: number;
  readonly excessShareAtHorizon: number;
  readonly excessFailuresPerThousand: number;
}

/**
 * Exposure is what was written down: among those said not to be cocked some are, in each shop and duty as many as
 * recording leaves there. Over 1,000,000 lives, each with its own fate in both parts, so that chance leaves little;
 * the ratios by a fit of both parts together, within shops, duty taken into account, as long as they are under watch.
 */
export function pairedTruth(plan: PairedPlan, lives = 1_000_000): PairedTruth {
  const random = createRandom(20_261_130);
  const sums = { said: 0, meanYes: 0, meanNo: 0, failedYes: 0, all: 0, failed: 0, failedWithout: 0 };
  const rows = { exit: [] as number[], event: [] as number[], entry: [] as number[] };
  const [exposed, hard, shop] = [[] as number[], [] as number[], [] as number[]];
  for (const one of drawn(plan, lives / (ends * installs), random)) {
    const share = (cockedShare[one.shop] as readonly number[])[one.hard]!;
    const cockedIfNo = random.uniform() < (share * plan.missed) / (1 - share + share * plan.missed);
    const [yes, no] = [ageAt(plan, one, true), ageAt(plan, one, cockedIfNo)];
    const asRecorded = one.said === 'yes' ? yes : one.said === 'no' ? no : ageAt(plan, one, one.cocked);
    const without = one.said === 'yes' ? no : asRecorded;
    sums.all++;
    sums.failed += asRecorded <= horizon ? 1 : 0;
    sums.failedWithout += without <= horizon ? 1 : 0;
    if (one.said === 'yes') {
      sums.said++;
      sums.meanYes += Math.min(yes, horizon);
      sums.meanNo += Math.min(no, horizon);
      sums.failedYes += yes <= horizon ? 1 : 0;
    }
    for (const [side, age] of [yes, no].entries()) {
      const exit = Math.min(age, one.stops);
      if (exit <= one.entry) continue;
      rows.exit.push(exit);
      rows.event.push(age <= one.stops ? 1 : 0);
      rows.entry.push(one.entry);
      exposed.push(1 - side);
      hard.push(one.hard);
      shop.push(one.shop);
    }
  }
  const data = { ...rows, strata: { levels: shops, codes: shop }, covariates: { hard, exposed } };
  const whole = coxRegression(data, { concordance: false });
  const split = coxTimeSplit(data, { covariate: 'exposed', cut, concordance: false }).terms[0];
  return {
    hazardRatio: whole.ratio[whole.terms.indexOf('exposed')] ?? NaN,
    earlyHazardRatio: split?.early.ratio ?? NaN,
    laterHazardRatio: split?.later.ratio ?? NaN,
    restrictedMeanDifference: (sums.meanYes - sums.meanNo) / sums.said,
    failedByHorizonHadNoneBeenRenewed: sums.failedYes / sums.said,
    excessShareAtHorizon: 1 - sums.failedWithout / sums.failed,
    excessFailuresPerThousand: (1000 * (sums.failed - sums.failedWithout)) / sums.all,
  };
}
