import type { Installation } from './draw-installation.ts';
import type { LifeTruth } from './life-truth-row.ts';
import type { FailureRow } from './rows.ts';

/** One seal in place. All miles are odometer values of the unit. */
export interface SealLife {
  readonly truth: LifeTruth;
  readonly installation: Installation;
  readonly installDay: number;
  readonly installMiles: number;
  readonly cause: string;
  readonly detectMiles: number;
  readonly wetMiles: number;
  readonly dripMiles: number;
  readonly soakMiles: number;
  /** Day a driver would notice it; Infinity when not before the unit leaves. */
  readonly driverDay: number;
  readonly mode: string;
}

/** A smaller leak or lubricant trouble that does not come from the seal. */
export interface SideTrouble {
  readonly mode: string;
  readonly fromMiles: number;
  readonly driverDay: number;
}

export interface BearingSet {
  readonly installMiles: number;
  readonly cause: string;
  readonly looseMiles: number;
  readonly failDay: number;
}

export type EpisodeKind = 'seal' | 'gasket' | 'bearing' | 'lubricant' | 'fastener';

/** A failure that was found and waits for its repair. */
export interface Episode {
  readonly kind: EpisodeKind;
  readonly foundBy: string;
  readonly foundDay: number;
  readonly repairDay: number;
  /** Null where the failure left no failure row (before the window, or only a repair was written). */
  readonly failure: FailureRow | null;
  readonly mode: string;
  readonly soaked: boolean;
}
