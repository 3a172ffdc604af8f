import type { AxleHistory } from './axle-history.ts';
import { type Installation, type Job, drawInstallation } from './draw-installation.ts';
import { lifeTruth } from './life-truth.ts';
import { type Renewed, drawLot, partsReplaced } from './parts.ts';
import type { Random } from './random.ts';
import { type JobPaper, sealServiceRow } from './service-row.ts';
import { JOBS_AT_HOME, OUTSIDE, POWER_SHARE, SHOPS, TRAILER_SHARE } from './story.ts';
import type { WheelEnd } from './wheel-end.ts';

const INTERVAL_MILES = 500_000;

/** Takes the hub off and puts a new seal in: the service row, and everything that now starts anew. */
export function renewSeal(history: AxleHistory, end: WheelEnd, paper: JobPaper, renewed: Renewed): void {
  const { unit, papers, today } = history;
  const { random, mileage } = unit;
  const job: Job = { shop: paper.shop, day: today, duty: unit.duty, priorFailures: end.priorFailures };
  const installation: Installation = drawInstallation(random, end.axle, job);
  const unitized = end.axle.build === 'unitized';
  const lot = unitized ? null : drawLot(random, today);
  const parts = partsReplaced(random, { job, renewed, unitized, installation });
  const row = sealServiceRow(history, end, paper, { installation, lot, replaced: parts });
  papers.services.push(row);
  row.comment = repairComment(random, paper, renewed.linings);
  const miles = mileage.read(today);
  const truth = lifeTruth(end, {
    day: today,
    miles,
    start: 'replacement',
    serviceId: row.service_id,
    shop: SHOPS[paper.shop] as string,
    lot,
    installation,
  });
  end.startSeal(truth, installation, today, miles, miles);
  end.startBearings(
    installation,
    miles,
    renewed.bearings || renewed.hub || unitized ? miles : end.bearings.installMiles,
  );
  end.startTrouble(installation, today, miles);
  end.renewalDay = random.chance(0.5) ? mileage.dayReaching(miles + INTERVAL_MILES) : Infinity;
}

const COMMENTS = ['waited for parts', 'hub cleaned, spindle looked at', 'both ends looked at', 'done with tyres'];

function repairComment(random: Random, { site }: JobPaper, linings: boolean): string | null {
  if (!random.chance(0.05)) return null;
  if (site !== 'shop') return 'invoice without details';
  return linings && random.chance(0.5) ? 'brake linings new on the axle' : random.pick(COMMENTS);
}

export function withReason({ orderId, shop, site, brakeWork }: JobPaper, reason: string | null): JobPaper {
  return { orderId, shop, site, reason, brakeWork };
}

export function openOrder(history: AxleHistory, onTheRoad: boolean): JobPaper {
  const { random, homeShop, unitClass } = history.unit;
  const outside = random.chance(onTheRoad ? 0.6 : 0.06);
  const shares = unitClass === 'trailer' ? TRAILER_SHARE : POWER_SHARE;
  const shop = outside ? OUTSIDE : random.chance(JOBS_AT_HOME) ? homeShop : random.weighted(shares);
  const site = !outside ? 'shop' : onTheRoad && random.chance(0.6) ? 'roadside' : 'vendor';
  return { orderId: history.papers.nextOrderId(), shop, site, reason: null, brakeWork: false };
}

export function installedToday(history: AxleHistory, end: WheelEnd): boolean {
  return end.life.installDay === history.today;
}
