import type { LifeState } from './vocabulary.ts';

/** A life as it lies along its wheel end; odometer miles throughout. */
export interface LivedStretch {
  readonly lifeId: string;
  readonly state: LifeState;
  readonly mode: string | null;
  readonly fromMiles: number;
  readonly toMiles: number;
  /** Null where it is not known when the part was fitted. */
  readonly installMiles: number | null;
  /** The failure that ended it was taken from the parts and the reason, not from a failure row. */
  readonly inferredEnd: boolean;
}

/** Something written down at a wheel end. */
export interface HistoryEvent {
  readonly table: 'services' | 'failures' | 'inspections';
  readonly id: string;
  readonly miles: number;
  readonly day: string;
  readonly quality: string;
  /** Parts replaced, mode, or kind of inspection. */
  readonly what: string | null;
  /** Reason, `fastener`, or where it leaked. */
  readonly why: string | null;
  /** 0 to 3 where the place was checked. */
  readonly leak: number | null;
  /** It renews the component, fails it, or bounds its onset. */
  readonly counts: boolean;
}

/** One wheel end along the miles of its vehicle. */
export interface WheelEndHistory {
  readonly unitId: string;
  readonly axle: number;
  readonly side: string;
  readonly role: string | null;
  readonly watchedFrom: number;
  readonly watchedTo: number;
  readonly lives: readonly LivedStretch[];
  /** Between a failure and its repair: miles that belong to no life. */
  readonly waits: readonly { readonly fromMiles: number; readonly toMiles: number }[];
  readonly events: readonly HistoryEvent[];
}
