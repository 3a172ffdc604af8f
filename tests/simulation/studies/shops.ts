import { observedExpected, observedExpectedChange } from '../../../lib/statistics/index.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { holds, type Study } from '../study.ts';

/** Shops with their part of the hard work, the ratio of hazard of what they fit, and how often they deviate. */
interface ShopPlan {
  readonly vehicles: number;
  readonly hard: readonly number[];
  readonly ratio: readonly number[];
  readonly deviates: readonly number[];
  /** Hazard of hard work and of a deviation. */
  readonly hardRatio: number;
  readonly deviationRatio: number;
  /** Variance of the gamma frailty of a vehicle. */
  readonly frailty: number;
}

/** The first has the hard work and fits as well as any; the second fits worse and has the easy work. */
const CONFOUNDED: ShopPlan = {
  ...{ vehicles: 300, hard: [0.8, 0.1, 0.5, 0.5, 0.1], ratio: [1, 2, 1, 1, 0.6], deviates: [0, 0, 0, 0, 0] },
  ...{ hardRatio: 4, deviationRatio: 1, frailty: 0.5 },
};
const ALIKE: ShopPlan = { ...CONFOUNDED, ratio: [1, 1, 1, 1, 1] };
const DEVIATING: ShopPlan = {
  ...ALIKE,
  vehicles: 900,
  deviates: [0.05, 0.4, 0.05, 0.05, 0.05],
  deviationRatio: 4,
  frailty: 0,
};

const names = ['a', 'b', 'c', 'd', 'e'];
const at = 1;

/**
 * Four wheel ends a vehicle, all its work hard or easy, each fitted at a shop by the work; constant
 * hazards, watched to 1 from 0 or from an age up to 0.3. About one in fifteen fails, so that who is
 * at risk hardly changes with age and the truth of a ratio is that of the whole.
 */
function drawShops(plan: ShopPlan, random: Random) {
  const columns = { entry: [] as number[], exit: [] as number[], event: [] as number[], cluster: [] as number[] };
  const [shop, hard, deviates] = [[] as number[], [] as number[], [] as number[]];
  for (let vehicle = 0; vehicle < plan.vehicles; vehicle++) {
    const work = random.below(2);
    const own = plan.frailty > 0 ? random.gamma(1 / plan.frailty) * plan.frailty : 1;
    for (let end = 0; end < 4; end++) {
      const one = pick(shopShares(plan, work), random.uniform());
      const deviation = random.uniform() < (plan.deviates[one] as number) ? 1 : 0;
      const hazard = 0.03 * own * hazardOf(plan, one, work, deviation);
      const entry = random.uniform() < 0.3 ? 0.3 * random.uniform() : 0;
      const life = random.exponential() / hazard;
      if (life <= entry) continue;
      columns.entry.push(entry);
      columns.exit.push(Math.min(1, life));
      columns.event.push(life < 1 ? 1 : 0);
      columns.cluster.push(vehicle);
      shop.push(one);
      hard.push(work);
      deviates.push(deviation);
    }
  }
  return { ...columns, group: { levels: names, codes: shop }, hard, deviates };
}

const hazardOf = ({ ratio, hardRatio, deviationRatio }: ShopPlan, shop: number, hard: number, deviation: number) =>
  (ratio[shop] as number) * (hard === 1 ? hardRatio : 1) * (deviation === 1 ? deviationRatio : 1);

function shopShares({ hard }: ShopPlan, work: number): number[] {
  const own = hard.map((share) => (work === 1 ? share : 1 - share));
  const all = own.reduce((sum, one) => sum + one, 0);
  return own.map((one) => one / all);
}

function pick(shares: readonly number[], drawn: number): number {
  let left = drawn;
  const found = shares.findIndex((share) => (left -= share) < 0);
  return found < 0 ? shares.length - 1 : found;
}

/**
 * Hazard of a shop's work over what the same work would bring at the average of all, deviations
 * part of the shop or of the work.
 */
function trueRatio(plan: ShopPlan, shop: number, taken: boolean): number {
  const sum = (of: (shop: number, hard: number, deviation: number) => number, only?: number) =>
    names.reduce((all, _, one) => {
      if (only !== undefined && one !== only) return all;
      return [0, 1].reduce((more, work) => {
        const share = (shopShares(plan, work)[one] as number) / 2;
        const deviates = plan.deviates[one] as number;
        return more + share * (deviates * of(one, work, 1) + (1 - deviates) * of(one, work, 0));
      }, all);
    }, 0);
  const failures = (one: number, work: number, deviation: number) => hazardOf(plan, one, work, deviation);
  const like = (_: number, work: number, deviation: number) =>
    (work === 1 ? plan.hardRatio : 1) * (taken && deviation === 1 ? plan.deviationRatio : 1);
  return sum(failures, shop) / sum(like, shop) / (sum(failures) / sum(like));
}

const robust = (found: ReturnType<typeof observedExpected>) => ({
  lower: found.robustLower[at] ?? null,
  upper: found.robustUpper[at] ?? null,
});
const wider = (found: ReturnType<typeof observedExpected>) => ({
  lower: Math.min(found.lower[at] as number, found.robustLower[at] as number),
  upper: Math.max(found.upper[at] as number, found.robustUpper[at] as number),
});

export const shopStudies: readonly Study[] = [
  {
    method: 'observedExpected',
    setting: 'five shops; the worse one has easy work; wheel ends share their vehicle’s fate',
    claims: {
      'its ratio, robust': 'covers',
      'its ratio, the wider limits': 'covers at least',
      'its ratio over the truth': 'labelled',
      'its ratio, work not taken into account': 'falls short',
    },
    play(random) {
      const { hard, deviates: _, ...fleet } = drawShops(CONFOUNDED, random);
      const truth = trueRatio(CONFOUNDED, at, true);
      const got = observedExpected({ ...fleet, covariates: { hard } });
      return {
        'its ratio, robust': holds(robust(got), truth),
        'its ratio, the wider limits': holds(wider(got), truth),
        'its ratio over the truth': (got.ratio[at] as number) / truth - 1,
        'its ratio, work not taken into account': holds(robust(observedExpected(fleet)), truth),
      };
    },
  },
  {
    method: 'observedExpected',
    setting: 'five shops that do not differ, with unlike work; wheel ends share their vehicle’s fate',
    claims: { 'test of a ratio of 1, robust': 'rejects at most', 'work not taken into account': 'rejects too often' },
    play(random) {
      const { hard, deviates: _, ...fleet } = drawShops(ALIKE, random);
      const differs = (found: ReturnType<typeof observedExpected>) => (found.robustPValue[at] as number) < 0.05;
      return {
        'test of a ratio of 1, robust': differs(observedExpected({ ...fleet, covariates: { hard } })),
        'work not taken into account': differs(observedExpected(fleet)),
      };
    },
  },
  {
    method: 'observedExpectedChange',
    shortRun: 25,
    setting: 'five shops that differ only in how often they deviate, which has its ratio',
    claims: {
      'change of the ratio': 'covers',
      'share of the excess': 'covers at least',
      'ratio left': 'covers',
    },
    play(random) {
      const { hard, deviates, ...fleet } = drawShops(DEVIATING, random);
      const before = observedExpected({ ...fleet, covariates: { hard } });
      const after = observedExpected({ ...fleet, covariates: { hard, deviates } });
      const { ratio, share } = observedExpectedChange(before, after, at);
      const [one, other] = [trueRatio(DEVIATING, at, false), trueRatio(DEVIATING, at, true)];
      const held = holds(share, (one - other) / (one - 1));
      return {
        'change of the ratio': holds(ratio, other / one),
        'share of the excess': share.value === null ? null : held,
        'ratio left': holds(robust(after), other),
      };
    },
  },
];
