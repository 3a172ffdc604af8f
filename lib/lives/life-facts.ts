import type { Component, FailureMode, LifeState } from '../../shared/vocabulary.ts';

/** The renewal that ended a life, or would have, had no failure ended it before. */
export interface NextRenewal {
  readonly serviceId: string;
  readonly date: string;
  readonly miles: number;
  readonly reason: string | null;
  /** Bearings or the hub were replaced with it. */
  readonly deep: boolean;
  readonly withSeal: boolean;
  readonly replaced: readonly string[];
  readonly hubBuild: string | null;
  /** How it ends the life before it where that has no failure of its own. */
  readonly state: LifeState;
  /** A failure of another component that it repaired, and how many there are. */
  readonly other: { readonly failureId: string; readonly mode: string; readonly count: number } | null;
  /** A failure of the wheel end across the axle that the same job repaired. */
  readonly mateFailure: { readonly failureId: string; readonly count: number } | null;
  /** A service of the wheel end across the axle on the same job whose reason says that end failed. */
  readonly mateOrder: { readonly serviceId: string; readonly reason: string; readonly count: number } | null;
}

/** Everything that decided how a life began and ended; miles are odometer values. */
export interface LifeFacts {
  readonly component: Component;
  readonly lifeId: string;
  readonly unitId: string;
  readonly axle: number;
  readonly side: string;
  readonly role: string | null;
  readonly wheelEnd: number;
  /** 0 for the first part of the wheel end; the k-th renewal begins slot k. */
  readonly slot: number;
  readonly state: LifeState;
  readonly mode: FailureMode | null;
  readonly installKind: string;
  readonly inferred: string;
  readonly mileageQuality: string;
  readonly mateLifeId: string | null;
  readonly startMiles: number | null;
  readonly startDate: string | null;
  readonly startServiceId: string | null;
  readonly startQuality: string | null;
  readonly endQuality: string | null;
  /** From here on it was watched. */
  readonly beginMiles: number;
  readonly endMiles: number;
  /** Ages. */
  readonly entryMiles: number | null;
  readonly exitMiles: number | null;
  readonly exposureMiles: number;
  /** The component's failure that ended it, and how many rows report it. */
  readonly failure: {
    readonly failureId: string;
    readonly mode: string;
    readonly date: string;
    readonly miles: number;
    readonly reports: number;
    readonly repairedBy: string | null;
  } | null;
  readonly next: NextRenewal | null;
  readonly left: { readonly date: string | null; readonly rowsAfter: number } | null;
  /** The unit's last known day, and whether it lies before the window's end. */
  readonly lastDay: string;
  readonly knownToTheEnd: boolean;
  readonly observedFrom: string;
  readonly observedTo: string;
}
