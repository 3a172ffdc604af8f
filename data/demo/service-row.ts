import type { AxleHistory } from './axle-history.ts';
import { isoDateOf } from './calendar.ts';
import type { Installation } from './draw-installation.ts';
import type { Random } from './random.ts';
import type { ServiceRow } from './rows.ts';
import { writeDown } from './write-down.ts';
import { SHOPS } from './story.ts';
import type { WheelEnd } from './wheel-end.ts';

/** What a repair order says whatever wheel end it is about. */
export interface JobPaper {
  readonly orderId: string;
  readonly shop: number;
  readonly site: string;
  readonly reason: string | null;
  readonly brakeWork: boolean;
}

export interface SealJob {
  readonly installation: Installation;
  readonly lot: string | null;
  readonly replaced: string;
}

const TECHNICIANS_PER_SHOP = 9;
const MILES_BLANK_SHARE = 0.02;

/** A service that did not touch the seal: parts only, nothing about the setting. */
export function partServiceRow(history: AxleHistory, end: WheelEnd, paper: JobPaper, replaced: string): ServiceRow {
  const { unit, papers, today } = history;
  const { random, mileage } = unit;
  const outside = paper.site !== 'shop';
  return {
    service_id: papers.nextServiceId(),
    order_id: paper.orderId,
    unit_id: unit.row.unit_id,
    axle: end.axle.number,
    side: end.side,
    date: isoDateOf(today),
    miles: random.chance(MILES_BLANK_SHARE) ? null : mileage.read(today),
    shop: SHOPS[paper.shop] as string,
    site: paper.site,
    technician_key: outside || random.chance(0.05) ? null : technicianKey(random, paper.shop),
    reason: paper.reason,
    replaced,
    seal_lot: null,
    hub_build: random.chance(0.98) ? end.axle.build : null,
    nut_system: random.chance(0.95) ? end.axle.nutSystem : null,
    hub_material: random.chance(0.7) ? end.axle.material : null,
    lubricant: random.chance(0.98) ? end.axle.lubricant : null,
    lubricant_grade: random.chance(0.6) ? random.pick(GRADES[end.axle.lubricant]) : null,
    fill_level: null,
    seating_torque_ftlb: null,
    inner_torque_ftlb: null,
    outer_torque_ftlb: null,
    nut_backed_off: null,
    end_play_in: null,
    end_play_measured: null,
    // Written out: a spread here would make every row several times slower to build.
    step_cavity_cleaned: null,
    step_seal_tool_used: null,
    step_seal_seated: null,
    step_spacer_fitted: null,
    step_spacer_oriented: null,
    step_hub_supported: null,
    step_lock_engaged: null,
    step_outer_nut_torqued: null,
    step_gasket_new: null,
    step_lubricant_matched: null,
    step_fill_checked: null,
    step_spindle_dressed: null,
    step_mark_fitted: null,
    deviations: null,
    checklist_complete: null,
    comment: null,
  };
}

const GRADES = { oil: ['80W-90', '75W-90'], 'semi-fluid': ['00'], packed: ['2'] } as const;

/** A service that renewed the seal, with as much of its installation as the shop wrote down. */
export function sealServiceRow(history: AxleHistory, end: WheelEnd, paper: JobPaper, job: SealJob): ServiceRow {
  const { random } = history.unit;
  const row = partServiceRow(history, end, paper, job.replaced);
  if (job.lot !== null && random.chance(paper.site === 'shop' ? 0.85 : 0.3)) row.seal_lot = job.lot;
  const { axle } = end;
  // Without its seal line the row counts as a renewal by its build's procedure alone.
  if (!/seal|hub/.test(job.replaced)) row.hub_build = axle.build;
  writeDown(random, row, { axle, shop: paper.shop, day: history.today, installation: job.installation });
  return row;
}

/** A pseudonym without meaning; technicians have no planted effect. */
function technicianKey(random: Random, shop: number): string {
  return `k${(shop * TECHNICIANS_PER_SHOP + random.below(TECHNICIANS_PER_SHOP)) * 37 + 101}`;
}
