import type { TableName } from '../../shared/record-tables.ts';
import type { Component, LifeState } from '../../shared/vocabulary.ts';
import type { LifeFacts, NextRenewal } from './life-facts.ts';
import { renewalState, stateWithoutFailure, type EndRule } from './why-ended-state.ts';

/** One row written otherwise (or, with `cells` null, not written at all): what a claim about "would have" rests on. */
export interface RecordChange {
  readonly table: TableName;
  readonly id: string;
  readonly cells: Readonly<Record<string, string | null>> | null;
}

/** Something that would have ended the life otherwise, and how; tried out by a test on arbitrary records. */
export interface Alteration {
  /** `Had service S1 been planned` */
  readonly had: string;
  readonly becomes: LifeState;
  readonly change: RecordChange;
}

const ofService = (serviceId: string, cells: RecordChange['cells']): RecordChange => ({
  table: 'services',
  id: serviceId,
  cells,
});

/** The same renewal under another reason; left out where nothing would change. */
function otherReason(facts: LifeFacts, next: NextRenewal, reason: string | null, says: string): Alteration[] {
  const becomes = renewalState(facts.component, { ...next, reason });
  if (becomes === facts.state) return [];
  return [
    {
      had: `Had service ${next.serviceId} given ${says} as its reason`,
      becomes,
      change: ofService(next.serviceId, { reason }),
    },
  ];
}

const reasons = (facts: LifeFacts, next: NextRenewal): Alteration[] => [
  ...otherReason(facts, next, 'planned', 'planned work'),
  ...otherReason(facts, next, 'failure', 'a failure'),
  ...otherReason(facts, next, null, 'nothing'),
];

const listed = (next: NextRenewal, component: Component): boolean =>
  next.hubBuild !== 'unitized' && next.replaced.includes(component === 'bearing' ? 'bearings' : component);

/** The same renewal with or without bearings and hub among the parts replaced. */
function otherParts(facts: LifeFacts, next: NextRenewal): Alteration[] {
  const { component, state } = facts;
  // Without its own part listed, or as a unitized hub, the service is a renewal only by the bearings or hub.
  if (component === 'bearing' || (next.deep && !listed(next, component))) return [];
  const shallow = next.replaced.filter((part) => part !== 'bearings' && part !== 'hub');
  const replaced = next.deep ? shallow : [...next.replaced, 'bearings'];
  const becomes = renewalState(component, { ...next, deep: !next.deep });
  if (becomes === state) return [];
  return [
    {
      had: `Had service ${next.serviceId} ${next.deep ? 'listed neither bearings nor hub' : 'listed bearings too'} among the parts replaced`,
      becomes,
      change: ofService(next.serviceId, { replaced: replaced.join(';') }),
    },
  ];
}

/** Without the failure row, or with it telling of another component. Further reports would fail the life in its place. */
function withoutFailure(facts: LifeFacts): Alteration[] {
  const { failure, next, component } = facts;
  if (failure === null || failure.reports > 1 || (next !== null && next.miles <= facts.beginMiles)) return [];
  const without = stateWithoutFailure(facts);
  const repaired = next !== null && failure.repairedBy === next.serviceId;
  const other = repaired
    ? renewalState(component, { ...next, other: { failureId: failure.failureId, mode: 'vent', count: 1 } })
    : without;
  return [
    {
      had: `Had failure ${failure.failureId} not been written down`,
      becomes: without,
      change: { table: 'failures', id: failure.failureId, cells: null },
    },
    {
      had: `Had failure ${failure.failureId} been of another component, such as a blocked vent`,
      becomes: other,
      change: { table: 'failures', id: failure.failureId, cells: { mode: 'vent' } },
    },
  ];
}

const withoutRow = (facts: LifeFacts, failureId: string, next: NextRenewal): Alteration[] => [
  {
    had: `Had failure ${failureId} not been written down`,
    becomes: renewalState(facts.component, next),
    change: { table: 'failures', id: failureId, cells: null },
  },
];

function otherFailed(facts: LifeFacts, next: NextRenewal): Alteration[] {
  if (next.other === null || next.other.count > 1) return [];
  return withoutRow(facts, next.other.failureId, { ...next, other: null });
}

function mateFailed(facts: LifeFacts, next: NextRenewal): Alteration[] {
  if (next.mateFailure === null || next.mateFailure.count > 1) return [];
  return withoutRow(facts, next.mateFailure.failureId, { ...next, mateFailure: null });
}

function mateOrdered(facts: LifeFacts, next: NextRenewal): Alteration[] {
  if (next.mateOrder === null || next.mateOrder.count > 1) return [];
  const { serviceId } = next.mateOrder;
  return [
    {
      had: `Had service ${serviceId}, across the axle, been planned work`,
      becomes: renewalState(facts.component, { ...next, mateOrder: null }),
      change: ofService(serviceId, { reason: 'planned' }),
    },
  ];
}

function notLeft({ unitId, left }: LifeFacts): Alteration[] {
  if (left === null || left.rowsAfter > 0) return [];
  return [
    {
      had: `Had vehicle ${unitId} not left the fleet`,
      becomes: 'running',
      change: { table: 'units', id: unitId, cells: { out_date: null, out_miles: null, out_reason: null } },
    },
  ];
}

/** What would have ended the life otherwise, by one row written otherwise; only what changes its end is said. */
export function alterations(facts: LifeFacts, rule: EndRule): Alteration[] {
  const { next } = facts;
  if (rule === 'failure-row') return withoutFailure(facts);
  if (rule === 'unit-left') return notLeft(facts);
  if (next === null) return [];
  const apart = { 'other-failed': otherFailed, 'mate-failed': mateFailed, 'mate-ordered': mateOrdered };
  const rows = rule in apart ? apart[rule as keyof typeof apart](facts, next) : [];
  return [...rows, ...reasons(facts, next), ...otherParts(facts, next)].filter(
    ({ becomes }) => becomes !== facts.state || rows.length > 0,
  );
}
