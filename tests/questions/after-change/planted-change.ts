import { createRandom } from '../../../lib/statistics/numeric/random.ts';
import type { Life } from '../fleet.ts';

/** What is planted into the jobs of one shop from a day on, or in a spell before it. */
export interface PlantedChange {
  readonly seed: number;
  readonly vehicles?: number;
  /** Hazard of a job done at Alpha from 2023-01-01 on, over that before. */
  readonly afterRatio?: number;
  /** Hazard of jobs done at Alpha in the nine months before that day. */
  readonly spellRatio?: number;
  /** Share of jobs with a cocked seal, and at Alpha after the change; its hazard over that without. */
  readonly cocked?: { readonly share: number; readonly after: number; readonly ratio: number };
  /** Of each life the day after which nothing more is in the records, though it goes on. */
  readonly recordsEnd?: string;
  /** Hazard of everybody's jobs from 2023 on. */
  readonly yearRatio?: number;
}

const dayOf = (iso: string): number => Date.parse(`${iso}T00:00:00Z`) / 86_400_000;
const isoOf = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10);

export const changeDay = '2023-01-01';
const [first, last] = [dayOf('2020-01-01'), dayOf('2025-12-31')];
const milesADay = 200;
const watched = 150_000;
const monthDays = 30.4375;

/**
 * Invented vehicles of four wheel ends, each wheel end renewed once at one of four shops; constant
 * hazards by role and lubricant, a frailty of each vehicle, 200 miles a day.
 */
export function plantedChange(plan: PlantedChange): Life[] {
  const random = createRandom(plan.seed);
  const change = dayOf(changeDay);
  const end = plan.recordsEnd === undefined ? last : dayOf(plan.recordsEnd);
  const lives: Life[] = [];
  for (let vehicle = 0; vehicle < (plan.vehicles ?? 600); vehicle++) {
    const frailty = random.gamma(10) / 10;
    const role = random.uniform() < 0.5 ? 'drive' : 'trailer';
    for (let wheel = 0; wheel < 4; wheel++) {
      const shop = ['Alpha', 'Beta', 'Gamma', 'Delta'][random.below(4)] as string;
      const lubricant = random.uniform() < 0.6 ? 'oil' : 'semi-fluid';
      const day = first + random.below(2_000);
      const changed = shop === 'Alpha' && day >= change;
      const spell = shop === 'Alpha' && day < change && day >= change - 270;
      const cocked = random.uniform() < (changed ? (plan.cocked?.after ?? 0) : (plan.cocked?.share ?? 0));
      const hazard =
        4e-6 *
        frailty *
        (role === 'trailer' ? 1.5 : 1) *
        (lubricant === 'oil' ? 1 : 0.8) *
        (changed ? (plan.afterRatio ?? 1) : 1) *
        (spell ? (plan.spellRatio ?? 1) : 1) *
        (day >= change ? (plan.yearRatio ?? 1) : 1) *
        (cocked ? (plan.cocked?.ratio ?? 1) : 1);
      const failed = Math.ceil(random.exponential() / hazard);
      const seen = Math.min(watched, (end - day) * milesADay);
      if (seen <= 0) continue;
      const exit = Math.min(failed, seen);
      lives.push({
        ...{ life_id: `${vehicle}-${wheel}`, unit_id: `V${vehicle}`, shop, role, lubricant, axle: 1 + wheel },
        ...{ install_date: isoOf(day), exit_miles: exit, entry_months: 0, exit_months: exit / milesADay / monthDays },
        ...{ exposure_months: exit / milesADay / monthDays, dev_seal_cocked: cocked ? 'yes' : 'no' },
        ...(failed <= seen ? { state: 'failed', mode: 'seal-inner' } : {}),
      });
    }
  }
  return lives;
}
