import type { AxleHistory } from './axle-history.ts';
import { closeLife } from './life-truth.ts';
import type { LifeEnd } from './life-truth-row.ts';
import { installedToday, openOrder, renewSeal, withReason } from './renew-seal.ts';
import { type JobPaper, partServiceRow } from './service-row.ts';
import { observedFromDay } from './story.ts';
import type { WheelEnd } from './wheel-end.ts';
import type { Episode } from './wheel-end-state.ts';

const UNLINKED_SHARE = 0.08;
const MATE_SHARE = 0.35;

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
export function repairEnd(history: AxleHistory, end: WheelEnd, paper: JobPaper, linings: boolean): void {
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
export function repairTrouble(history: AxleHistory, end: WheelEnd, episode: Episode, paper: JobPaper): void {
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
