import type { Component, LifeState } from '../../shared/vocabulary.ts';
import type { LifeFacts, NextRenewal } from './life-facts.ts';

/** Which rule of the record contract (its 5.3) settled how a renewal ended the life before it. */
export type RenewalRule =
  'other-failed' | 'planned' | 'mate-failed' | 'mate-ordered' | 'failed-unwritten' | 'other-by-parts' | 'not-told';

export type EndRule = RenewalRule | 'failure-row' | 'unit-left' | 'running';

const stateOf: Readonly<Record<RenewalRule, LifeState>> = {
  'other-failed': 'other-failure',
  planned: 'planned',
  'mate-failed': 'planned',
  'mate-ordered': 'planned',
  'failed-unwritten': 'failed',
  'other-by-parts': 'other-failure',
  'not-told': 'removed-unknown',
};

const failing = (reason: string | null): boolean => reason === 'failure' || reason === 'comeback';

/** A failing reason without a failure row: what the parts replaced say of it, for the component asked about. */
function ruleOfParts(component: Component, { reason, deep, withSeal }: NextRenewal): RenewalRule {
  const found = reason === 'inspection-finding';
  if (component === 'bearing' || !(failing(reason) || found)) return 'not-told';
  if (deep) return found ? 'not-told' : 'other-by-parts';
  if (component === 'seal') return 'failed-unwritten';
  return withSeal ? 'other-by-parts' : 'not-told';
}

/**
 * The rules in their order, as the SQL of `renewalStates` has them; held together by a test over
 * arbitrary records. Kept a second time so that "what would have altered it" can be worked out.
 */
export function renewalRule(component: Component, next: NextRenewal): RenewalRule {
  if (next.other !== null) return 'other-failed';
  if (next.reason === 'planned' || next.reason === 'brake-work') return 'planned';
  if (next.mateFailure !== null) return 'mate-failed';
  if (next.mateOrder !== null && (next.reason === null || next.reason === 'other')) return 'mate-ordered';
  return ruleOfParts(component, next);
}

export const renewalState = (component: Component, next: NextRenewal): LifeState =>
  stateOf[renewalRule(component, next)];

export function endRule({ failure, next, left, component }: LifeFacts): EndRule {
  if (failure !== null) return 'failure-row';
  if (next !== null) return renewalRule(component, next);
  return left === null ? 'running' : 'unit-left';
}

/** How the life would have ended without its failure row. */
export function stateWithoutFailure({ component, next, left }: LifeFacts): LifeState {
  if (next !== null) return renewalState(component, next);
  return left === null ? 'running' : 'unit-left';
}
