import { type Installation, canExist } from './draw-installation.ts';
import type { AxlePlan } from './draw-unit.ts';
import { DEVIATIONS, type PlantedDeviation, bitOf } from './planted-deviations.ts';
import type { Random } from './random.ts';
import type { ServiceRow } from './rows.ts';
import { CHANGE, SHOPS } from './story.ts';

/** Shares by shop (story.ts order; the sixth is outside work). */
const COMPLETE_SHARE = [0.75, 0.6, 0.5, 0.65, 0.6, 0.12];
const COMPLETE_AFTER_CHANGE = 0.88;
const STEP_SHEET = [true, true, false, false, true, false];
const TORQUE_SHARE = [0.8, 0.65, 0.6, 0.6, 0.55, 0.25];
/** Chance that a deviation which happened is written down: full checklist, some notes, nothing much. */
const NOTED = { complete: 0.85, partial: 0.45, none: 0.06 } as const;
const PARTIAL_SHARE = 0.5;

export interface JobDone {
  readonly axle: AxlePlan;
  readonly shop: number;
  readonly day: number;
  readonly installation: Installation;
}

type Care = keyof typeof NOTED;

/** Fills a service row with what the shop recorded of the installation; what it did not is left blank. */
export function writeDown(random: Random, row: ServiceRow, job: JobDone): void {
  const care = drawCare(random, job);
  if (care === 'complete') row.checklist_complete = 'yes';
  const codes: string[] = [];
  for (let index = 0; index < DEVIATIONS.length; index++) {
    const deviation = DEVIATIONS[index] as PlantedDeviation;
    if (BY_VALUE & (1 << index) || !canExist(deviation, job.axle)) continue;
    const happened = (job.installation.bits & (1 << index)) !== 0;
    const noted = happened && random.chance(NOTED[care]);
    writeOne(random, row, codes, { deviation, noted, care, steps: STEP_SHEET[job.shop] as boolean });
  }
  if (STEP_SHEET[job.shop] && row.fill_level !== null) row.step_fill_checked = 'done';
  if (codes.length > 0) row.deviations = codes.join(';');
  writeTorques(random, row, job);
  writeEndPlay(random, row, job);
}

const BY_VALUE = [
  'inner-torque-out',
  'outer-torque-out',
  'end-play-high',
  'end-play-low',
  'end-play-unmeasured',
].reduce((bits, code) => bits | bitOf(code), 0);

function drawCare(random: Random, { shop, day }: JobDone): Care {
  const changed = SHOPS[shop] === CHANGE.shop && day >= CHANGE.day;
  if (random.chance(changed ? COMPLETE_AFTER_CHANGE : (COMPLETE_SHARE[shop] as number))) return 'complete';
  return random.chance(PARTIAL_SHARE) ? 'partial' : 'none';
}

interface Note {
  readonly deviation: PlantedDeviation;
  readonly noted: boolean;
  readonly care: Care;
  readonly steps: boolean;
}

function writeOne(random: Random, row: ServiceRow, codes: string[], note: Note): void {
  const { deviation, noted, care, steps } = note;
  const asked = care === 'complete' || (care === 'partial' && random.chance(0.45));
  const own = OWN_COLUMN[deviation.code];
  if (own) {
    if (noted) row[own.column] = own.yes;
    else if (asked && row[own.column] === null) row[own.column] = own.no;
  } else if (steps && deviation.step) {
    if (noted) row[deviation.step] = 'skipped';
    else if (asked) row[deviation.step] = 'done';
  } else if (noted) codes.push(deviation.code);
}

interface OwnColumn {
  readonly column: 'nut_backed_off' | 'fill_level';
  readonly yes: string;
  readonly no: string;
}
/** On adjusted hubs backing off is part of the job, so the same column means the opposite there. */
const OWN_COLUMN: Readonly<Record<string, OwnColumn>> = {
  'nut-backed-off': { column: 'nut_backed_off', yes: 'yes', no: 'no' },
  'back-off-omitted': { column: 'nut_backed_off', yes: 'no', no: 'yes' },
  underfilled: { column: 'fill_level', yes: 'low', no: 'ok' },
  overfilled: { column: 'fill_level', yes: 'over', no: 'ok' },
};

const OUTER_SKIPPED = bitOf('outer-nut-skipped');

function writeTorques(random: Random, row: ServiceRow, { axle, shop, installation }: JobDone): void {
  if (!random.chance(TORQUE_SHARE[shop] as number)) return;
  if (axle.build === 'adjusted') row.seating_torque_ftlb = 200;
  if (axle.build !== 'unitized') row.inner_torque_ftlb = installation.innerTorque;
  if (axle.nutSystem !== 'double' || axle.build === 'unitized') return;
  const skipped = (installation.bits & OUTER_SKIPPED) !== 0;
  if (!skipped || random.chance(0.2)) row.outer_torque_ftlb = installation.outerTorque;
}

const UNMEASURED = bitOf('end-play-unmeasured');

function writeEndPlay(random: Random, row: ServiceRow, { axle, installation }: JobDone): void {
  if (axle.build !== 'adjusted') return;
  if (installation.bits & UNMEASURED) {
    if (random.chance(0.75)) row.end_play_measured = 'no';
  } else if (random.chance(0.92)) {
    row.end_play_measured = 'yes';
    row.end_play_in = installation.endPlayThousandths / 1000;
  }
}
