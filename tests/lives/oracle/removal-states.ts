// Why a life without a failure of its own ended at a renewal (record contract, 5.3), over plain rows.
import type { Component } from '../../../shared/vocabulary.ts';
import type { Row } from '../record-tables-in-engine.ts';
import {
  failsComponent,
  isFastenerLoss,
  renewalsOf,
  repairOf,
  wheelEndName,
  type Records,
  type Renewal,
  type WheelEnd,
} from './histories.ts';
import { words } from './judged-deviations.ts';

export interface Removal {
  readonly state: 'failed' | 'planned' | 'other-failure' | 'removed-unknown';
  readonly endId: string;
}

export const otherSide = (end: WheelEnd) => wheelEndName(end.unitId, end.axle, end.side === 'left' ? 'right' : 'left');

function sameJob(a: Row, b: Row): boolean {
  if (a['unit_id'] !== b['unit_id']) return false;
  if (a['order_id'] && b['order_id']) return a['order_id'] === b['order_id'];
  return a['date'] === b['date'];
}

const isDeep = (row: Row) => words(row['replaced']).some((part) => part === 'bearings' || part === 'hub');

/** A failure row of the other wheel end whose repair is on the job of this renewal. */
function mateFailureSaysSo(component: Component, service: Row, end: WheelEnd, records: Records): boolean {
  const mate = records.wheelEnds.get(otherSide(end));
  if (!mate) return false;
  const mateRenewals = renewalsOf(component, mate, records);
  return (records.failures.get(mate.name) ?? []).some((failure) => {
    if (isFastenerLoss(failure.row)) return false;
    const link = failure.row['repair_service_id'];
    const linked = records.jobs.filter((row) => link && row['service_id'] === link);
    const repairs = linked.length > 0 ? linked : (repairOf(failure, mateRenewals, records)?.rows.slice(0, 1) ?? []);
    return repairs.some((repair) => sameJob(repair, service));
  });
}

/** A service of the other wheel end, on the same job, whose reason says that end failed. */
function mateOrderSaysSo(service: Row, end: WheelEnd, records: Records): boolean {
  return (records.services.get(otherSide(end)) ?? []).some(({ row }) => {
    const found = row['reason'] === 'inspection-finding' && words(row['replaced']).includes('seal') && !isDeep(row);
    return (found || row['reason'] === 'failure' || row['reason'] === 'comeback') && sameJob(row, service);
  });
}

function otherFailureHere(component: Component, renewal: Renewal, end: WheelEnd, records: Records): boolean {
  const renewals = renewalsOf(component, end, records);
  return (records.failures.get(end.name) ?? []).some(
    (failure) =>
      !failsComponent(component, failure.row) &&
      !isFastenerLoss(failure.row) &&
      repairOf(failure, renewals, records)?.rows[0] === renewal.rows[0],
  );
}

/** A failing reason without a failure row, by what was replaced; the rule names seals, so other components are not failed by it. */
function withoutFailureRow(component: Component, service: Row): Removal['state'] {
  const found = service['reason'] === 'inspection-finding';
  if (component === 'seal') return isDeep(service) ? (found ? 'removed-unknown' : 'other-failure') : 'failed';
  if (component === 'bearing') return 'removed-unknown';
  if (isDeep(service)) return found ? 'removed-unknown' : 'other-failure';
  return words(service['replaced']).includes('seal') ? 'other-failure' : 'removed-unknown';
}

export function removalAt(component: Component, renewal: Renewal, end: WheelEnd, records: Records): Removal {
  const service = renewal.rows[0] as Row;
  const ended = (state: Removal['state']): Removal => ({ state, endId: String(service['service_id']) });
  if (otherFailureHere(component, renewal, end, records)) return ended('other-failure');
  if (mateFailureSaysSo(component, service, end, records)) return ended('planned');
  const reason = service['reason'] ?? 'other';
  if (reason === 'planned' || reason === 'brake-work') return ended('planned');
  if (reason === 'other') return ended(mateOrderSaysSo(service, end, records) ? 'planned' : 'removed-unknown');
  return ended(withoutFailureRow(component, service));
}
