import type { AxleHistory } from './axle-history.ts';
import { type Job, type Installation, drawInstallation } from './draw-installation.ts';
import { closeLife, lifeTruth } from './life-truth.ts';
import { openEpisode } from './open-episode.ts';
import { drawLot, partsReplaced } from './parts.ts';
import type { LifeEnd } from './rows.ts';
import { type JobPaper, partServiceRow, sealServiceRow } from './service-row.ts';
import { JOBS_AT_HOME, OUTSIDE, POWER_SHARE, SHOPS, TRAILER_SHARE, observedFromDay } from './story.ts';
import type { Episode, WheelEnd } from './wheel-end.ts';

const UNLINKED_SHARE = 0.08;
const MATE_SHARE = 0.35;
const INTERVAL_MILES = 500_000;

/** The booked repair of a failure, and often of the seal across the axle with it. */
export function repair(history: AxleHistory, end: WheelEnd): void {
  const episode = end.episode as Episode;
  const paper = openOrder(history, episode.foundBy === 'road-call' || episode.foundBy === 'roadside');
  if (episode.kind === 'gasket' || episode.kind === 'lubricant') {
    repairTrouble(history, end, episode, paper);
    return;
  }
  const linings = episode.soaked && history.unit.random.chance(0.94);
  repairEnd(history, end, paper, linings);
  const mate = history.mateOf(end);
  if (mate.episode && (mate.episode.kind === 'seal' || mate.episode.kind === 'bearing'))
    repairEnd(history, mate, paper, linings);
  else if (!mate.episode && episode.failure && history.unit.random.chance(linings ? 0.6 : MATE_SHARE))
    renewMate(history, mate, paper, linings);
  if (linings) history.planReline();
}

/** Renews the seal of a wheel end that failed, and links the failure row to the service. */
function repairEnd(history: AxleHistory, end: WheelEnd, paper: JobPaper, linings: boolean): void {
  const { unit } = history;
  const episode = end.episode as Episode;
  const repairOnly = episode.kind === 'seal' && episode.failure === null && episode.foundDay >= observedFromDay;
  const bearings = episode.kind !== 'seal' || (!repairOnly && unit.random.chance(0.12));
  const reason = paper.brakeWork ? 'brake-work' : failureReason(history, end, episode, repairOnly);
  const how: LifeEnd =
    episode.kind === 'seal' ? 'failed' : episode.kind === 'bearing' ? 'other-failure' : 'removed-unknown';
  const foundDay = how === 'failed' && !repairOnly ? episode.foundDay : history.today;
  closeLife(history.papers, end, foundDay, how, episode.failure?.failure_id ?? null);
  end.priorFailures++;
  renewSeal(history, end, { ...paper, reason }, { bearings, linings, hub: episode.kind === 'fastener' });
  if (episode.failure) {
    if (episode.soaked) episode.failure.linings_replaced = linings ? 'yes' : 'no';
    link(history, episode, end.life.truth.start_service_id as string);
  }
  end.episode = null;
}

function link(history: AxleHistory, episode: Episode, serviceId: string): void {
  const { random, mileage } = history.unit;
  const failure = episode.failure;
  if (!failure) return;
  const far =
    history.today - episode.foundDay > 30 || mileage.read(history.today) - mileage.read(episode.foundDay) > 3_000;
  if (far || !random.chance(UNLINKED_SHARE)) failure.repair_service_id = serviceId;
}

function failureReason(history: AxleHistory, end: WheelEnd, episode: Episode, repairOnly: boolean): string {
  const { random } = history.unit;
  if (episode.kind === 'fastener') return 'other';
  const repeat = end.priorFailures > 0 && episode.foundDay - end.life.installDay < 90;
  if (repeat && random.chance(0.7)) return 'comeback';
  const atCheck = episode.foundBy === 'pm' || episode.foundBy === 'annual';
  return atCheck && !repairOnly && random.chance(0.4) ? 'inspection-finding' : 'failure';
}

/** Gasket, vent and fill repairs mostly leave the seal in place. */
function repairTrouble(history: AxleHistory, end: WheelEnd, episode: Episode, paper: JobPaper): void {
  const { unit, papers, today } = history;
  const reason = paper.brakeWork ? 'brake-work' : 'failure';
  end.episode = null;
  if (episode.kind === 'gasket' && (paper.brakeWork || unit.random.chance(0.25))) {
    closeLife(papers, end, today, 'other-failure', episode.failure?.failure_id ?? null);
    renewSeal(history, end, { ...paper, reason }, { bearings: false, linings: paper.brakeWork, hub: false });
    link(history, episode, end.life.truth.start_service_id as string);
    return;
  }
  const replaced = { gasket: 'gasket;lubricant', lubricant: 'lubricant' }[episode.kind as 'gasket' | 'lubricant'];
  const row = partServiceRow(history, end, { ...paper, reason }, episode.mode === 'vent' ? 'hubcap' : replaced);
  papers.services.push(row);
  link(history, episode, row.service_id);
  end.startTrouble({ ...end.life.installation, bits: 0 }, today, unit.mileage.read(today));
}

function renewMate(history: AxleHistory, mate: WheelEnd, paper: JobPaper, linings: boolean): void {
  const { random } = history.unit;
  const reason = [null, 'failure', 'planned'][random.weighted([0.12, 0.08, 0.8])] as string | null;
  closeLife(history.papers, mate, history.today, 'mate', null);
  renewSeal(history, mate, { ...paper, reason }, { bearings: false, linings, hub: false });
}

/** Brake work takes the hubs off: seals are renewed on both ends, or on one. */
export function reline(history: AxleHistory): void {
  const { unit } = history;
  const paper = { ...openOrder(history, false), brakeWork: true, reason: 'brake-work' };
  const both = unit.random.chance(0.85);
  const only = unit.random.pick(history.ends);
  for (const end of history.ends) {
    if (!both && end !== only) continue;
    const leaking = end.sealLeakAt(unit.mileage.at(history.today)) > 0;
    if (!end.episode && leaking && unit.random.chance(0.6))
      openEpisode(history, end, { kind: 'seal', by: 'shop', mode: end.life.mode, inJob: true });
    if (!end.episode) renewPlanned(history, end, paper, true);
    else if (end.episode.kind === 'gasket' || end.episode.kind === 'lubricant') renewWithTrouble(history, end, paper);
    else repairEnd(history, end, paper, true);
  }
  history.planReline();
}

function renewWithTrouble(history: AxleHistory, end: WheelEnd, paper: JobPaper): void {
  repairTrouble(history, end, { ...(end.episode as Episode), kind: 'gasket' }, paper);
}

/** Seals that reach the interval of the procedure are renewed where a shop keeps to it. */
export function renewOnSchedule(history: AxleHistory, end: WheelEnd): void {
  renewPlanned(history, end, { ...openOrder(history, false), reason: 'planned' }, false);
}

function renewPlanned(history: AxleHistory, end: WheelEnd, paper: JobPaper, linings: boolean): void {
  const { random } = history.unit;
  const unclear = random.chance(0.04);
  closeLife(history.papers, end, history.today, unclear ? 'removed-unknown' : 'planned', null);
  const reason = unclear ? random.pick([null, 'other']) : paper.reason;
  renewSeal(history, end, { ...paper, reason }, { bearings: random.chance(0.15), linings, hub: false });
}

interface Renewed {
  readonly bearings: boolean;
  readonly linings: boolean;
  readonly hub: boolean;
}

function renewSeal(history: AxleHistory, end: WheelEnd, paper: JobPaper, renewed: Renewed): void {
  const { unit, papers, today } = history;
  const { random, mileage } = unit;
  const job: Job = { shop: paper.shop, day: today, duty: unit.duty, priorFailures: end.priorFailures };
  const installation: Installation = drawInstallation(random, end.axle, job);
  const unitized = end.axle.build === 'unitized';
  const lot = unitized ? null : drawLot(random, today);
  const parts = partsReplaced(random, { ...renewed, ...job, unitized, installation });
  const row = sealServiceRow(history, end, paper, { installation, lot, replaced: parts });
  papers.services.push(row);
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

function openOrder(history: AxleHistory, onTheRoad: boolean): JobPaper {
  const { random, homeShop, unitClass } = history.unit;
  const outside = random.chance(onTheRoad ? 0.6 : 0.06);
  const shares = unitClass === 'trailer' ? TRAILER_SHARE : POWER_SHARE;
  const shop = outside ? OUTSIDE : random.chance(JOBS_AT_HOME) ? homeShop : random.weighted(shares);
  const site = !outside ? 'shop' : onTheRoad && random.chance(0.6) ? 'roadside' : 'vendor';
  return { orderId: history.papers.nextOrderId(), shop, site, reason: null, brakeWork: false };
}
