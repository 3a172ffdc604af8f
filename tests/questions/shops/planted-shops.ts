import { createRandom } from '../../../lib/statistics/numeric/random.ts';
import type { Life } from '../fleet.ts';

/** A shop with its share of trailer work and the ratio of hazard of what it fits. */
export interface PlantedShop {
  readonly name: string;
  readonly trailer: number;
  readonly ratio: number;
  /** Share of jobs with the seal cocked, which has its own ratio of hazard. */
  readonly cocked?: number;
}

export interface Planted {
  readonly seed: number;
  readonly shops: readonly PlantedShop[];
  readonly vehicles: number;
  /** Hazard of trailer work over that of drive work, and of a cocked seal over one that is not. */
  readonly trailerRatio: number;
  readonly cockedRatio?: number;
  /** Failures per mile of drive work at a shop of ratio 1. */
  readonly rate: number;
  /** Spread of the vehicles' own gamma frailty: its variance; 0 for none. */
  readonly frailty: number;
}

const watched = 100_000;

/**
 * Vehicles of four wheel ends of one role, each fitted at a shop drawn by role; constant hazards, all
 * watched for as long, a third from some way in. With few failures the mix at risk hardly moves.
 */
export function plantedShops(plan: Planted): Life[] {
  const random = createRandom(plan.seed);
  const lives: Life[] = [];
  const weights = (trailer: boolean) => plan.shops.map((shop) => (trailer ? shop.trailer : 1 - shop.trailer));
  for (let vehicle = 0; vehicle < plan.vehicles; vehicle++) {
    const trailer = vehicle % 2 === 0;
    const own = plan.frailty > 0 ? random.gamma(1 / plan.frailty) * plan.frailty : 1;
    for (let end = 0; end < 4; end++) {
      const shop = plan.shops[drawn(weights(trailer), random.uniform())] as PlantedShop;
      const cocked = random.uniform() < (shop.cocked ?? 0);
      const hazard =
        plan.rate * own * shop.ratio * (trailer ? plan.trailerRatio : 1) * (cocked ? (plan.cockedRatio ?? 1) : 1);
      const entry = random.uniform() < 1 / 3 ? Math.round(20_000 * random.uniform()) : 0;
      const failed = Math.ceil(random.exponential() / hazard);
      if (failed <= entry) continue;
      lives.push({
        life_id: `${vehicle}-${end}`,
        unit_id: `V${vehicle}`,
        ...{ shop: shop.name, role: trailer ? 'trailer' : 'drive', dev_seal_cocked: cocked ? 'yes' : 'no' },
        ...{ entry_miles: entry, exit_miles: Math.min(failed, watched) },
        ...(failed < watched ? { state: 'failed', mode: 'seal-inner' } : {}),
        install_date: `${2020 + (vehicle % 3)}-0${1 + (vehicle % 9)}-15`,
      });
    }
  }
  return lives;
}

function drawn(weights: readonly number[], share: number): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let left = share * total;
  for (const [index, weight] of weights.entries()) {
    if (left < weight) return index;
    left -= weight;
  }
  return weights.length - 1;
}

/**
 * What the ratio of a shop estimates: its planted ratio over the average of all, each weighed by the
 * failures that its work would bring at a ratio of 1.
 */
export function plantedTruth({ shops, trailerRatio }: Planted): number[] {
  const totals = [1, 0].map((trailer) =>
    shops.reduce((sum, shop) => sum + (trailer === 1 ? shop.trailer : 1 - shop.trailer), 0),
  ) as [number, number];
  const work = shops.map((shop) => (trailerRatio * shop.trailer) / totals[0] + (1 - shop.trailer) / totals[1]);
  const all = work.reduce((sum, own) => sum + own, 0);
  const average = shops.reduce((sum, { ratio }, index) => sum + (ratio * (work[index] as number)) / all, 0);
  return shops.map(({ ratio }) => ratio / average);
}
