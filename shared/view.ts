import { z } from 'zod';
import { deviationCodes } from './deviations.ts';
import { cutColumns } from './lives.ts';
import { components, failureModes } from './vocabulary.ts';

const deviationCode = z.enum(deviationCodes as [string, ...string[]]);
const cut = z.enum(cutColumns as [string, ...string[]]);

const cost = z.number().max(100_000_000);

/**
 * What the reader is looking at: the same object behind the page's URL, the command line and
 * a finding's settings. Column names are those of the lives table.
 */
export const viewSchema = z.object({
  component: z.enum(Object.keys(components) as [keyof typeof components]).default('seal'),
  /** One failure mode, or null for every mode the question counts. */
  mode: z.enum(failureModes).nullable().default(null),
  by: z.array(cut).max(2).default([]),
  /** Kept are lives whose column holds one of the values, for every column named. */
  where: z.partialRecord(cut, z.array(z.string()).min(1)).default({}),
  installedFrom: z.iso.date().nullable().default(null),
  installedTo: z.iso.date().nullable().default(null),
  /** What ages are counted in: miles since installation, or months by the calendar. */
  axis: z.enum(['miles', 'months']).default('miles'),
  horizonMiles: z.number().positive().max(5_000_000).default(100_000),
  horizonMonths: z.number().positive().max(1_200).default(36),
  level: z.number().gt(0.5).lt(1).default(0.95),
  interval: z.enum(['log-log', 'log', 'plain']).default('log-log'),
  adjust: z.array(cut).default([]),
  /**
   * What deviations are held against: failures of the component, the first failure of any mode found
   * at the wheel end, or the first soaked lining.
   */
  outcome: z.enum(['component', 'any', 'lining']).default('component'),
  /** Up to here a failure is early, in what the axis counts. */
  earlyMiles: z.number().positive().max(5_000_000).default(25_000),
  earlyMonths: z.number().positive().max(1_200).default(6),
  /** The one deviation looked into, where a ranking is. */
  deviation: deviationCode.nullable().default(null),
  /** Shops compared by what they fitted, or by what was found in their hands: the latter is warned of. */
  attribution: z.enum(['installing', 'finding']).default('installing'),
  /** The day from which parts were fitted another way, and the shops that did so. */
  change: z.iso.date().nullable().default(null),
  changedShops: z.array(z.string().min(1)).max(200).default([]),
  /** Deviations that would get rarer; none = those that surely go with more failures. */
  saving: z.array(deviationCode).default([]),
  /** What they fall to: the lowest share that a shop here has, or none; a level of its own goes before. */
  savingTo: z.enum(['best-shop', 'zero']).default('best-shop'),
  savingLevels: z.partialRecord(deviationCode, z.number().min(0).max(1)).default({}),
  /**
   * What a planned renewal costs, and what a failure does: its repair, the downtime it brings, and what a
   * soaked lining and a road call add where there is one. In any one unit of money; the defaults are
   * assumptions, a planned renewal taken as 100.
   */
  plannedCost: cost.positive().default(100),
  failureCost: cost.positive().default(150),
  downtimeCost: cost.nonnegative().default(150),
  liningCost: cost.nonnegative().default(300),
  roadCallCost: cost.nonnegative().default(600),
  /** What "ahead" counts in: so many miles of every vehicle, or so many months at each one's own pace. */
  ahead: z.enum(['miles', 'months']).default('months'),
  aheadMiles: z.number().positive().max(1_000_000).default(25_000),
  aheadMonths: z.number().positive().max(120).default(6),
});
export type View = z.infer<typeof viewSchema>;

export type Axis = View['axis'];

/** How far lives are followed, in what the axis counts. */
export const horizonOf = ({ axis, horizonMiles, horizonMonths }: View): number =>
  axis === 'months' ? horizonMonths : horizonMiles;

/** Up to which age a failure is early, in what the axis counts. */
export const earlyOf = ({ axis, earlyMiles, earlyMonths }: View): number =>
  axis === 'months' ? earlyMonths : earlyMiles;

export const defaultView: View = viewSchema.parse({});
