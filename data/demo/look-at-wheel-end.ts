import type { AxleHistory } from './axle-history.ts';
import { isoDateOf } from './calendar.ts';
import { type Sight, inspectionRow } from './inspection-row.ts';
import { openEpisode } from './open-episode.ts';
import type { Check } from './plan-checks.ts';
import { observedFromDay } from './story.ts';
import type { WheelEnd } from './wheel-end.ts';

/** One wheel end on one check sheet: what is seen, what is written, what is followed up. */
export function lookAtWheelEnd(history: AxleHistory, end: WheelEnd, check: Check): void {
  const { random } = history.unit;
  const checked = random.chance(check.kind === 'roadside' ? 0.7 : 0.95);
  const sight: Sight = checked ? see(history, end, check) : { leak: 0, at: null, loose: false };
  if (check.day >= observedFromDay) history.papers.inspections.push(inspectionRow(history, end, check, sight, checked));
  if (!checked) return;
  if (end.episode) {
    reportAgain(history, end, sight);
    return;
  }
  const by = check.kind === 'pre-hire' ? 'shop' : check.kind;
  if (sight.at === 'inboard') {
    if (random.chance([0, 0.45, 0.98, 0.995][sight.leak] as number))
      openEpisode(history, end, { kind: 'seal', by, mode: end.life.mode });
  } else if (sight.loose) openEpisode(history, end, { kind: 'bearing', by, mode: looseMode(history, end) });
  else if (sight.at !== null && random.chance(0.8))
    openEpisode(history, end, { kind: kindOf(end.trouble.mode), by, mode: end.trouble.mode });
}

/** A leak that waits for its repair is now and then reported a second time: the same episode. */
function reportAgain({ unit, papers, today }: AxleHistory, end: WheelEnd, { at }: Sight): void {
  const first = end.episode?.failure;
  if (!first || end.episode?.kind !== 'seal' || at !== 'inboard' || !unit.random.chance(0.5)) return;
  const again = { date: isoDateOf(today), miles: unit.mileage.read(today), found_by: 'shop' };
  papers.failures.push({
    ...first,
    ...again,
    failure_id: papers.nextFailureId(),
    repair_service_id: null,
    downtime_hours: null,
    cost: null,
    teardown_deviations: null,
    comment: 'already reported',
  });
}

export function kindOf(mode: string): 'gasket' | 'lubricant' {
  return mode === 'lubricant-low' || mode === 'vent' ? 'lubricant' : 'gasket';
}

function see(history: AxleHistory, end: WheelEnd, check: Check): Sight {
  const { random, mileage } = history.unit;
  const miles = mileage.at(check.day);
  const leak = end.sealLeakAt(miles);
  const loose = miles >= end.bearings.looseMiles && random.chance(check.kind === 'roadside' ? 0.2 : 0.45);
  if (leak > 0 && random.chance(chanceToSee(end, check, leak))) return { leak, at: 'inboard', loose };
  if (miles >= end.trouble.fromMiles && random.chance(check.kind === 'roadside' ? 0.3 : 0.85)) {
    const at = TROUBLE_PLACE[end.trouble.mode] as string;
    return { leak: at === 'unknown' ? 0 : miles - end.trouble.fromMiles < 8_000 ? 1 : 2, at, loose };
  }
  return { leak: 0, at: null, loose };
}

const TROUBLE_PLACE: Readonly<Record<string, string>> = {
  'gasket-hubcap': 'hubcap',
  'gasket-flange': 'flange',
  vent: 'vent',
  'lubricant-low': 'unknown',
};

function chanceToSee({ detection }: WheelEnd, { kind }: Check, leak: number): number {
  if (kind === 'roadside') return leak >= 2 ? 0.7 : 0.1;
  return kind === 'pm' ? detection.pm : detection.annual;
}

function looseMode({ unit: { random } }: AxleHistory, end: WheelEnd): string {
  const metal = end.axle.lubricant === 'oil' ? 0.3 : 0;
  return random.chance(metal) ? 'lubricant-metal' : random.chance(0.65) ? 'end-play' : 'bearing';
}

/** A driver's note before the job: about half of what drivers find is put on a sheet. */
export function driverSheet(history: AxleHistory, end: WheelEnd): void {
  const { unit, today, papers } = history;
  if (today < observedFromDay || !unit.random.chance(0.5)) return;
  const leak = end.sealLeakAt(unit.mileage.at(today));
  const check: Check = { day: today, kind: 'driver', sheet: papers.nextDriverSheet() };
  papers.inspections.push(
    inspectionRow(history, end, check, { leak, at: leak ? 'inboard' : null, loose: false }, true),
  );
}
