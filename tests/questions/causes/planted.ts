import type { Life } from '../fleet.ts';
import { createRandom } from '../../../lib/statistics/index.ts';

/** How a planted fleet differs from the plain one: constant hazards, four wheel ends a vehicle, two shops. */
export interface Planted {
  readonly vehicles: number;
  readonly seed: number;
  /** Hazard ratio of the planted deviation, seal-cocked. */
  readonly ratio?: number;
  /** Share with it by shop; the second shop's seals fail `shopRatio` times as often. */
  readonly shares?: readonly [number, number];
  readonly shopRatio?: number;
  /** Vehicles that nobody marked: theirs fail so many times as often and carry the deviation more often. */
  readonly hiddenRatio?: number;
}

const shops = ['Ambleford', 'Brackwell'] as const;
/** Failures by mile without anything planted. */
const hazard = 1 / 250_000;

/**
 * Lives whose true hazard ratio is known. `dirty-cavity` is a decoy: it goes with the shop and does
 * nothing. A fifth of either record is silent, at random.
 */
export function plantedLives(planted: Planted): Life[] {
  const { vehicles, seed, ratio = 1, shares = [0.2, 0.2], shopRatio = 1, hiddenRatio = 1 } = planted;
  const random = createRandom(seed);
  const chance = (share: number) => random.uniform() < share;
  return Array.from({ length: vehicles }, (_, vehicle) => {
    const shop = chance(0.5) ? 1 : 0;
    const hidden = hiddenRatio !== 1 && chance(0.5);
    return Array.from({ length: 4 }, (__, end): Life => {
      const cocked = chance(shares[shop] * (hidden ? 3 : 1));
      const dirty = chance(shop === 1 ? 0.5 : 0.1);
      const rate = hazard * (cocked ? ratio : 1) * (shop === 1 ? shopRatio : 1) * (hidden ? hiddenRatio : 1);
      const fails = random.exponential() / rate;
      const stops = 20_000 + random.uniform() * 280_000;
      const exit = Math.max(1, Math.round(Math.min(fails, stops)));
      return {
        ...{
          life_id: `L${vehicle}-${end}`,
          unit_id: `U${vehicle}`,
          axle: 1 + (end >> 1),
          side: end % 2 === 0 ? 'left' : 'right',
        },
        ...{
          shop: shops[shop],
          role: end < 2 ? 'drive' : 'trailer',
          hub_build: 'spacer',
          lubricant: 'oil',
          duty: 'linehaul',
        },
        ...{ install_date: `${2018 + (vehicle % 3)}-05-01`, exit_miles: exit, exposure_miles: exit },
        ...(fails < stops ? { state: 'failed', mode: 'seal-inner' } : { state: 'running' }),
        dev_seal_cocked: chance(0.2) ? null : cocked ? 'yes' : 'no',
        dev_dirty_cavity: chance(0.2) ? 'unknown' : dirty ? 'yes' : 'no',
        dev_end_play_high: 'not-applicable',
      };
    });
  }).flat();
}
