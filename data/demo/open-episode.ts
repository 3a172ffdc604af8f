import type { AxleHistory } from './axle-history.ts';
import { isoDateOf } from './calendar.ts';
import { codesOf } from './planted-deviations.ts';
import type { FailureRow } from './rows.ts';
import { observedFromDay } from './story.ts';
import type { WheelEnd } from './wheel-end.ts';
import type { EpisodeKind } from './wheel-end-state.ts';

export interface Found {
  readonly kind: EpisodeKind;
  readonly by: string;
  readonly mode: string;
  /** The repair happens in the same job (brake work). */
  readonly inJob?: boolean;
}

const NO_ROW_SHARE = 0.03;
const TEARDOWN_SHARE = 0.3;

/** A failure is found today: its row is written and its repair booked. */
export function openEpisode(history: AxleHistory, end: WheelEnd, found: Found): void {
  const { random, toDay } = history.unit;
  const day = history.today;
  const observed = day > observedFromDay;
  const wait = found.inJob || !observed ? 0 : repairWait(history, end, found);
  // Where only the repair order tells of a leak, the record contract infers the failure from it.
  const repairOnly =
    found.kind === 'seal' &&
    !found.inJob &&
    end.axle.build !== 'unitized' &&
    day + wait <= toDay &&
    random.chance(NO_ROW_SHARE);
  const failure = observed && !repairOnly ? failureRow(history, end, found) : null;
  if (failure) history.papers.failures.push(failure);
  const soaked = (found.kind === 'seal' || found.kind === 'bearing') && end.soakedAt(history.unit.mileage.at(day));
  end.episode = {
    kind: found.kind,
    foundBy: found.by,
    foundDay: day,
    repairDay: day + wait,
    failure,
    mode: found.mode,
    soaked,
  };
}

function repairWait({ unit: { random } }: AxleHistory, end: WheelEnd, found: Found): number {
  if (found.kind === 'fastener' || found.by === 'road-call') return random.below(3);
  if (found.by === 'roadside') return random.below(2);
  if (found.by === 'driver') return Math.min(40, Math.floor(random.exponential(4)));
  if (random.chance(0.6)) return 0;
  return Math.min(60, 1 + Math.floor(random.exponential(end.axle.lubricant === 'oil' ? 5 : 11)));
}

function failureRow(history: AxleHistory, end: WheelEnd, found: Found): FailureRow {
  const { unit, today, papers } = history;
  const { random, mileage, row } = unit;
  const lost = found.mode === 'wheel-lost';
  const severe = lost || found.mode === 'hot-hub' || found.by === 'road-call' || found.by === 'roadside';
  const soaked = liningFlag(history, end, found);
  return {
    failure_id: papers.nextFailureId(),
    unit_id: row.unit_id,
    axle: end.axle.number,
    side: end.side,
    date: isoDateOf(today),
    miles: random.chance(0.02) ? null : mileage.read(today),
    found_by: found.by,
    mode: found.mode,
    repair_service_id: null,
    lining_contaminated: soaked,
    linings_replaced: null,
    wheel_lost: lost ? 'yes' : found.kind === 'bearing' ? 'no' : null,
    wheel_lost_by: lost ? (found.kind === 'fastener' ? 'fastener' : 'bearing') : null,
    out_of_service: lost || random.chance(severe ? 0.65 : 0.04) ? 'yes' : random.chance(0.6) ? 'no' : null,
    downtime_hours: random.chance(0.85) ? downtime(random.normal(), severe, lost) : null,
    cost: random.chance(0.85) ? repairCost(random.normal(), found, soaked === 'yes', lost) : null,
    teardown_deviations: teardown(history, end, found),
    comment: null,
  };
}

function liningFlag({ unit, today }: AxleHistory, end: WheelEnd, { kind }: Found): string | null {
  const { random, mileage } = unit;
  if (kind === 'fastener' || kind === 'lubricant') return null;
  if (random.chance(0.1)) return null;
  if (kind === 'gasket') return random.chance(0.03) ? 'yes' : 'no';
  return end.soakedAt(mileage.at(today)) ? 'yes' : 'no';
}

function downtime(normal: number, severe: boolean, lost: boolean): number {
  return Math.max(1, Math.round((lost ? 60 : severe ? 20 : 6) * Math.exp(0.5 * normal)));
}

/** US dollars, invented. */
function repairCost(normal: number, { kind, by }: Found, soaked: boolean, lost: boolean): number {
  const job = lost ? 14_000 : { seal: 520, gasket: 160, bearing: 2_300, lubricant: 90, fastener: 14_000 }[kind];
  const call = by === 'road-call' ? 750 : by === 'roadside' ? 400 : 0;
  return Math.round((job + (soaked ? 380 : 0)) * Math.exp(0.25 * normal)) + call;
}

function teardown({ unit: { random } }: AxleHistory, end: WheelEnd, { kind }: Found): string | null {
  if ((kind !== 'seal' && kind !== 'bearing') || !random.chance(TEARDOWN_SHARE)) return null;
  const seen = codesOf(end.life.installation.bits).filter(
    (code) => code !== 'end-play-unmeasured' && random.chance(0.6),
  );
  return seen.length ? seen.join(';') : null;
}
