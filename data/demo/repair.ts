import type { AxleHistory } from './axle-history.ts';
import { type Job, type Installation, drawInstallation } from './draw-installation.ts';
import { closeLife, lifeTruth } from './life-truth.ts';
import { openEpisode } from './open-episode.ts';
import { type Renewed, drawLot, partsReplaced } from './parts.ts';
import type { Random } from './random.ts';
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
  const mate = history.mateOf(end);
  repairEnd(history, end, paper, linings);
  if (mate.episode) {
    if (hasRow(episode) && hasRow(mate.episode)) repairEnd(history, mate, paper, linings);
  } else if (
    hasRow(episode) &&
    !installedToday(history, mate) &&
    history.unit.random.chance(linings ? 0.6 : MATE_SHARE)
  )
    renewMate(history, mate, paper, linings);
  if (linings) history.planReline();
}

/** A seal or bearing failure on file: only such a one explains the job at the mate end. */
function hasRow({ kind, failure }: Episode): boolean {
  return failure !== null && (kind === 'seal' || kind === 'bearing');
}

/** Renews the seal of a wheel end that failed, and links the failure row to the service. */
function repairEnd(history: AxleHistory, end: WheelEnd, paper: JobPaper, linings: boolean): void {
  const { unit } = history;
  const episode = end.episode as Episode;
  const repairOnly = episode.kind === 'seal' && episode.failure === null && episode.foundDay > observedFromDay;
  const bearings = episode.kind !== 'seal' || (!repairOnly && unit.random.chance(0.12));
  const reason = paper.brakeWork ? 'brake-work' : failureReason(history, end, episode, repairOnly);
  const how: LifeEnd =
    episode.kind === 'seal' ? 'failed' : episode.kind === 'bearing' ? 'other-failure' : 'removed-unknown';
  const foundDay = how === 'failed' && !repairOnly ? episode.foundDay : history.today;
  closeLife(history.papers, end, foundDay, how, episode.failure?.failure_id ?? null);
  if (episode.kind !== 'fastener') end.priorFailures++;
  renewSeal(history, end, withReason(paper, reason), { bearings, linings, hub: episode.kind === 'fastener' });
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
  // Beyond these the record contract would not take the service for the repair without a link.
  const far =
    history.today - episode.foundDay > 30 || mileage.read(history.today) - mileage.read(episode.foundDay) > 3_000;
  const sealOff = episode.kind === 'seal' || episode.kind === 'bearing';
  if (far || !sealOff || !random.chance(UNLINKED_SHARE)) failure.repair_service_id = serviceId;
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
    renewSeal(history, end, withReason(paper, reason), { bearings: false, linings: paper.brakeWork, hub: false });
    link(history, episode, end.life.truth.start_service_id as string);
    return;
  }
  const replaced = { gasket: 'gasket;lubricant', lubricant: 'lubricant' }[episode.kind as 'gasket' | 'lubricant'];
  const row = partServiceRow(history, end, withReason(paper, reason), episode.mode === 'vent' ? 'hubcap' : replaced);
  papers.services.push(row);
  link(history, episode, row.service_id);
  end.startTrouble({ ...end.life.installation, bits: 0 }, today, unit.mileage.read(today));
}

function renewMate(history: AxleHistory, mate: WheelEnd, paper: JobPaper, linings: boolean): void {
  const { random } = history.unit;
  const reason = [null, 'failure', 'planned'][random.weighted([0.12, 0.08, 0.8])] as string | null;
  closeLife(history.papers, mate, history.today, 'mate', null);
  renewSeal(history, mate, withReason(paper, reason), { bearings: false, linings, hub: false });
}

/** Brake work takes the hubs off: seals are renewed on both ends, or on one. */
export function reline(history: AxleHistory): void {
  const { random } = history.unit;
  const paper = { ...openOrder(history, false), brakeWork: true, reason: 'brake-work' };
  const chosen = random.chance(0.85) ? history.ends : [random.pick(history.ends)];
  const ends = chosen.filter((end) => !installedToday(history, end));
  for (const end of ends) noticeLeak(history, end);
  // One unclear row an order at most, and none beside a failure: else the contract reads it as the mate's doing.
  const noFailure = history.ends.every(({ episode }) => episode === null);
  for (const end of ends) {
    if (!end.episode) renewPlanned(history, end, paper, { linings: true, mayBeUnclear: noFailure && end === ends[0] });
    else if (end.episode.kind === 'gasket' || end.episode.kind === 'lubricant')
      repairTrouble(history, end, { ...end.episode, kind: 'gasket' }, paper);
    // A leak that only its repair order tells of needs an order of its own to be told from planned work.
    else repairEnd(history, end, end.episode.failure ? paper : openOrder(history, false), true);
  }
  history.planReline();
}

function installedToday(history: AxleHistory, end: WheelEnd): boolean {
  return end.life.installDay === history.today;
}

function noticeLeak(history: AxleHistory, end: WheelEnd): void {
  const { random, mileage } = history.unit;
  if (end.episode || end.sealLeakAt(mileage.at(history.today)) === 0 || !random.chance(0.6)) return;
  openEpisode(history, end, { kind: 'seal', by: 'shop', mode: end.life.mode, inJob: true });
}

/** Seals that reach the interval of the procedure are renewed where a shop keeps to it. */
export function renewOnSchedule(history: AxleHistory, end: WheelEnd): void {
  const paper = { ...openOrder(history, false), reason: 'planned' };
  renewPlanned(history, end, paper, { linings: false, mayBeUnclear: true });
}

const UNCLEAR_SHARE = 0.04;

function renewPlanned(
  history: AxleHistory,
  end: WheelEnd,
  paper: JobPaper,
  { linings, mayBeUnclear }: { linings: boolean; mayBeUnclear: boolean },
): void {
  const { random } = history.unit;
  const unclear = mayBeUnclear && random.chance(UNCLEAR_SHARE);
  closeLife(history.papers, end, history.today, unclear ? 'removed-unknown' : 'planned', null);
  const reason = unclear ? random.pick([null, 'other', 'inspection-finding']) : paper.reason;
  // With bearings an inspection finding need not have been a leak, so why the seal came out stays open.
  const bearings = reason === 'inspection-finding' || random.chance(0.15);
  renewSeal(history, end, withReason(paper, reason), { bearings, linings, hub: false });
}

function renewSeal(history: AxleHistory, end: WheelEnd, paper: JobPaper, renewed: Renewed): void {
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

function withReason({ orderId, shop, site, brakeWork }: JobPaper, reason: string | null): JobPaper {
  return { orderId, shop, site, reason, brakeWork };
}

function openOrder(history: AxleHistory, onTheRoad: boolean): JobPaper {
  const { random, homeShop, unitClass } = history.unit;
  const outside = random.chance(onTheRoad ? 0.6 : 0.06);
  const shares = unitClass === 'trailer' ? TRAILER_SHARE : POWER_SHARE;
  const shop = outside ? OUTSIDE : random.chance(JOBS_AT_HOME) ? homeShop : random.weighted(shares);
  const site = !outside ? 'shop' : onTheRoad && random.chance(0.6) ? 'roadside' : 'vendor';
  return { orderId: history.papers.nextOrderId(), shop, site, reason: null, brakeWork: false };
}
