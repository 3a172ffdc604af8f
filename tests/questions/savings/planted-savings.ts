import { createRandom } from '../../../lib/statistics/numeric/random.ts';
import type { Life } from '../fleet.ts';

export const plantedHazard = { base: 2.5e-6, cocked: 4, dirty: 1.8, frailty: 0.1 };
export const plantedShare = { cocked: 0.1, dirty: 0.2 };

const first = Date.parse('2020-01-01T00:00:00Z') / 86_400_000;
const [milesADay, monthDays, watched] = [200, 30.4375, 120_000];

/** Invented jobs at four shops, of which Alpha deviates least; constant hazards and a frailty of each vehicle. */
export function plantedSavings(seed: number, vehicles = 600): Life[] {
  const random = createRandom(seed);
  const lives: Life[] = [];
  for (let vehicle = 0; vehicle < vehicles; vehicle++) {
    const frailty = random.gamma(1 / plantedHazard.frailty) * plantedHazard.frailty;
    const role = random.uniform() < 0.5 ? 'drive' : 'trailer';
    for (let wheel = 0; wheel < 4; wheel++) {
      const shop = ['Alpha', 'Beta', 'Gamma', 'Delta'][random.below(4)] as string;
      const lubricant = random.uniform() < 0.6 ? 'oil' : 'semi-fluid';
      const day = first + random.below(1_400);
      const often = shop === 'Alpha' ? 0.4 : 1.2;
      const cocked = random.uniform() < plantedShare.cocked * often;
      const dirty = random.uniform() < plantedShare.dirty * often;
      const hazard =
        plantedHazard.base * frailty * (cocked ? plantedHazard.cocked : 1) * (dirty ? plantedHazard.dirty : 1);
      const failed = Math.ceil(random.exponential() / hazard);
      const exit = Math.min(failed, watched);
      lives.push({
        ...{ life_id: `${vehicle}-${wheel}`, unit_id: `V${vehicle}`, shop, role, lubricant, axle: 1 + wheel },
        ...{ install_date: new Date(day * 86_400_000).toISOString().slice(0, 10), exit_miles: exit, entry_months: 0 },
        ...{ exit_months: exit / milesADay / monthDays, exposure_months: exit / milesADay / monthDays },
        ...{ dev_seal_cocked: cocked ? 'yes' : 'no', dev_dirty_cavity: dirty ? 'yes' : 'no' },
        ...(failed <= watched ? { state: 'failed', mode: 'seal-inner' } : {}),
      });
    }
  }
  return lives;
}
