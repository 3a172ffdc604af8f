import { isoDateOf } from './calendar.ts';
import type { Installation, Job } from './draw-installation.ts';
import { bitOf } from './planted-deviations.ts';
import type { Random } from './random.ts';

const GASKET_REUSED = bitOf('gasket-reused');
const NOT_DRESSED = bitOf('spindle-not-dressed');
/** Dunhollow's parts lists never carry gaskets, so their absence there says nothing. */
const SHOP_WITHOUT_GASKET_LINES = 3;

/** Two seal lots are in use at any time, changed every quarter: L2004A and L2004B from April 2020. */
export function drawLot(random: Random, day: number): string {
  const iso = isoDateOf(day);
  const month = 3 * Math.floor((Number(iso.slice(5, 7)) - 1) / 3) + 1;
  return `L${iso.slice(2, 4)}${String(month).padStart(2, '0')}${random.chance(0.5) ? 'A' : 'B'}`;
}

/** What is renewed beside the seal. */
export interface Renewed {
  readonly bearings: boolean;
  readonly linings: boolean;
  readonly hub: boolean;
}

export interface PartsJob {
  readonly job: Job;
  readonly renewed: Renewed;
  readonly unitized: boolean;
  readonly installation: Installation;
}

/** The part classes a service row lists. */
export function partsReplaced(random: Random, { job, renewed, unitized, installation }: PartsJob): string {
  const lining = renewed.linings ? ';lining' : '';
  if (unitized) return `hub${lining}`;
  // A bearing job now and then forgets the seal line; the procedure says it was renewed all the same.
  let parts = renewed.bearings && !renewed.hub && random.chance(0.06) ? '' : 'seal;';
  if (renewed.bearings) parts += 'bearings;';
  if (renewed.hub || (renewed.bearings && random.chance(0.15))) parts += 'hub;';
  const gasketNew = !(installation.bits & GASKET_REUSED) && job.shop !== SHOP_WITHOUT_GASKET_LINES;
  if (gasketNew && random.chance(0.97)) parts += 'gasket;';
  parts += 'lubricant';
  if (job.priorFailures > 1 && !(installation.bits & NOT_DRESSED) && random.chance(0.5)) parts += ';sleeve';
  return parts + lining;
}
