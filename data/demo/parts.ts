import { isoDateOf } from './calendar.ts';
import type { Installation, Job } from './draw-installation.ts';
import { bitOf } from './planted-effects.ts';
import type { Random } from './random.ts';

const GASKET_REUSED = bitOf('gasket-reused');
const NOT_DRESSED = bitOf('spindle-not-dressed');
/** Dunhollow's parts lists never carry gaskets, so their absence there says nothing. */
const SHOP_WITHOUT_GASKET_LINES = 3;

/** Two seal lots are in use at any time, changed every two months: L2003A and L2003B from March 2020. */
export function drawLot(random: Random, day: number): string {
  const iso = isoDateOf(day);
  const month = 2 * Math.floor((Number(iso.slice(5, 7)) - 1) / 2) + 1;
  return `L${iso.slice(2, 4)}${String(month).padStart(2, '0')}${random.chance(0.5) ? 'A' : 'B'}`;
}

export interface PartsJob extends Job {
  readonly bearings: boolean;
  readonly linings: boolean;
  readonly hub: boolean;
  readonly unitized: boolean;
  readonly installation: Installation;
}

/** The part classes a service row lists. */
export function partsReplaced(random: Random, job: PartsJob): string {
  const parts: string[] = [];
  if (job.unitized) parts.push('hub');
  else {
    // A bearing job now and then forgets the seal line; the procedure says it was renewed all the same.
    if (!job.bearings || job.hub || !random.chance(0.06)) parts.push('seal');
    if (job.bearings) parts.push('bearings');
    if (job.hub || (job.bearings && random.chance(0.15))) parts.push('hub');
    if (!(job.installation.bits & GASKET_REUSED) && job.shop !== SHOP_WITHOUT_GASKET_LINES && random.chance(0.97))
      parts.push('gasket');
    parts.push('lubricant');
    if (job.priorFailures > 1 && !(job.installation.bits & NOT_DRESSED) && random.chance(0.5)) parts.push('sleeve');
  }
  if (job.linings) parts.push('lining');
  return parts.join(';');
}
