import type { AxleHistory } from './axle-history.ts';
import { closeLife } from './life-truth.ts';
import { openEpisode } from './open-episode.ts';
import { installedToday, openOrder, renewSeal, withReason } from './renew-seal.ts';
import { repairEnd, repairTrouble } from './repair.ts';
import type { JobPaper } from './service-row.ts';
import type { WheelEnd } from './wheel-end.ts';

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
