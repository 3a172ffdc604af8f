import { AxleHistory } from './axle-history.ts';
import type { AxlePlan, DemoUnit } from './draw-unit.ts';
import { closeLife } from './life-truth.ts';
import { driverSheet, kindOf, lookAtWheelEnd } from './look-at-wheel-end.ts';
import { openEpisode } from './open-episode.ts';
import type { Check } from './plan-checks.ts';
import { reline, renewOnSchedule } from './planned-work.ts';
import { repair } from './repair.ts';
import { observedFromDay } from './story.ts';
import type { UnitPapers } from './unit-history.ts';
import type { WheelEnd } from './wheel-end.ts';

type What = 'repair' | 'seal' | 'trouble' | 'bearing' | 'renewal' | 'reline' | 'fastener';
interface Due {
  day: number;
  what: What;
  end: WheelEnd;
}

/** Plays an axle's years through in order of the day and writes its papers. */
export function playAxle(unit: DemoUnit, papers: UnitPapers, axle: AxlePlan, checks: readonly Check[]): void {
  const history = new AxleHistory(unit, papers, axle);
  let nextCheck = 0;
  for (;;) {
    const check = checks[nextCheck];
    const due = nextDue(history);
    if (check && check.day <= due.day) {
      history.today = check.day;
      nextCheck++;
      for (const end of history.ends) lookAtWheelEnd(history, end, check);
      continue;
    }
    if (due.day > unit.toDay) break;
    history.today = due.day;
    run(history, due);
  }
  for (const end of history.ends) closeAtTheEnd(history, end);
}

function nextDue(history: AxleHistory): Due {
  const due: Due = { day: history.relineDay, what: 'reline', end: history.ends[0] };
  const offer = (day: number, what: What, end: WheelEnd): void => {
    if (day >= due.day) return;
    due.day = day;
    due.what = what;
    due.end = end;
  };
  for (const end of history.ends) {
    if (end.episode) {
      offer(end.episode.repairDay, 'repair', end);
      continue;
    }
    offer(end.life.driverDay, 'seal', end);
    offer(end.trouble.driverDay, 'trouble', end);
    offer(end.bearings.failDay, 'bearing', end);
    offer(end.renewalDay, 'renewal', end);
  }
  const [, right] = history.ends;
  if (!right.episode) offer(Math.max(history.fastenerDay, right.life.installDay + 1), 'fastener', right);
  // What fell due while another repair was awaited happens now.
  due.day = Math.max(due.day, history.today);
  // Nothing falls on the window's first day: it would lie on the edge of what the records can show.
  if (due.day === observedFromDay) due.day++;
  return due;
}

function run(history: AxleHistory, { what, end }: Due): void {
  const { random } = history.unit;
  if (what === 'repair') repair(history, end);
  else if (what === 'reline') reline(history);
  else if (what === 'renewal') renewOnSchedule(history, end);
  else if (what === 'seal') {
    const by = ['driver', 'shop', 'road-call'][random.weighted([0.82, 0.12, 0.06])] as string;
    if (by === 'driver') driverSheet(history, end);
    openEpisode(history, end, { kind: 'seal', by, mode: end.life.mode });
  } else if (what === 'trouble')
    openEpisode(history, end, { kind: kindOf(end.trouble.mode), by: 'driver', mode: end.trouble.mode });
  else if (what === 'bearing') openEpisode(history, end, { kind: 'bearing', ...bearingFound(history, end) });
  else {
    history.fastenerDay = Infinity;
    openEpisode(history, end, { kind: 'fastener', by: 'road-call', mode: 'wheel-lost' });
  }
}

function bearingFound({ unit: { random } }: AxleHistory, end: WheelEnd): { by: string; mode: string } {
  const lost = end.bearings.cause === 'lock-not-engaged' ? 0.35 : 0.004;
  if (random.chance(lost)) return { by: 'road-call', mode: 'wheel-lost' };
  const by = random.chance(0.45) ? 'road-call' : 'driver';
  return { by, mode: ['hot-hub', 'bearing', 'end-play'][random.weighted([0.45, 0.43, 0.12])] as string };
}

function closeAtTheEnd(history: AxleHistory, end: WheelEnd): void {
  const { unit, papers } = history;
  const { episode } = end;
  if (episode?.kind === 'seal' && episode.failure)
    closeLife(papers, end, episode.foundDay, 'failed', episode.failure.failure_id);
  else closeLife(papers, end, unit.toDay, unit.left ? 'unit-left' : 'running', null);
}
