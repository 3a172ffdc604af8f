import type { CheckedLives } from './checked-lives.ts';
import type { RiskOrder } from './risk-order.ts';
import type { Codes } from './survival-data.ts';

/** The rows behind one curve, in their sorted order. */
export interface CurveSource {
  readonly order: RiskOrder;
  readonly part: number;
  readonly lives: CheckedLives & { readonly event: Uint8Array; readonly cluster: Codes };
}

/**
 * Robust errors of what is read off a curve later need the rows again. They are kept beside the curve,
 * not in it, so that the curve stays plain data that can be cloned to another thread or written as
 * JSON; a clone has only what is in its fields, and its readings then leave the robust part out.
 */
const sources = new WeakMap<object, CurveSource>();

export const rememberSource = (curve: object, source: CurveSource): void => void sources.set(curve, source);

export const sourceOf = (curve: object): CurveSource | undefined => sources.get(curve);
