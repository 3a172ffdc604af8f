import type { AxlePlan } from './draw-unit.ts';
import type { Installation } from './draw-installation.ts';
import { DEVIATIONS, type EarlyBranch, type PlantedDeviation } from './planted-deviations.ts';
import {
  BEARING_WEAR,
  HAZARD_PER_PRIOR_FAILURE,
  SEAL_WEAR,
  SEMI_FLUID_BEARING_HAZARD,
  SPACER_BUILD_HAZARD,
  UNITIZED_WEAR,
  endPlayHazard,
} from './planted-effects.ts';
import type { Random } from './random.ts';
import { BAD_LOT, DUTY_HAZARD } from './story.ts';

export interface Latent {
  /** Miles from installation to the event. */
  readonly age: number;
  /** `wear`, `lot`, or the deviation whose early branch came first. */
  readonly cause: string;
}

export interface SealConditions {
  readonly axle: AxlePlan;
  readonly duty: string;
  /** Product of the unit's and the wheel end's frailty. */
  readonly frailty: number;
  readonly priorFailures: number;
  readonly lot: string | null;
}

/** First seep: the earliest of wear and of every early branch that the installation opened. */
export function drawSeep(random: Random, conditions: SealConditions, installation: Installation): Latent {
  const { shape, scaleMiles } = sealWear(conditions.axle);
  const hazard = sealHazard(conditions, installation);
  let age = scaleMiles * Math.pow(random.exponential() / hazard, 1 / shape);
  let cause = 'wear';
  for (let index = 0; index < DEVIATIONS.length; index++) {
    if (!(installation.bits & (1 << index))) continue;
    const deviation = DEVIATIONS[index] as PlantedDeviation;
    const branch = earlyAge(random, deviation.sealEarly);
    if (branch < age) {
      age = branch;
      cause = deviation.code;
    }
  }
  if (conditions.lot === BAD_LOT.lot) {
    const branch = earlyAge(random, BAD_LOT);
    if (branch < age) return { age: branch, cause: 'lot' };
  }
  return { age, cause };
}

function sealWear(axle: AxlePlan): { shape: number; scaleMiles: number } {
  if (axle.build === 'unitized') return UNITIZED_WEAR;
  return SEAL_WEAR[`${axle.role} ${axle.lubricant}`] as { shape: number; scaleMiles: number };
}

/** Multiplier on the wear hazard of the seal. */
function sealHazard(conditions: SealConditions, installation: Installation): number {
  const { axle, duty, frailty, priorFailures } = conditions;
  let hazard = frailty * (DUTY_HAZARD[duty] as number);
  hazard *= 1 + HAZARD_PER_PRIOR_FAILURE * Math.min(priorFailures, 5);
  if (axle.build === 'spacer') hazard *= SPACER_BUILD_HAZARD;
  if (axle.build === 'adjusted') hazard *= endPlayHazard(installation.endPlayThousandths);
  for (let index = 0; index < DEVIATIONS.length; index++)
    if (installation.bits & (1 << index)) hazard *= (DEVIATIONS[index] as PlantedDeviation).sealHazard;
  return hazard;
}

export function earlyAge(random: Random, branch: EarlyBranch | undefined): number {
  return branch && random.chance(branch.share) ? random.weibull(branch.shape, branch.scaleMiles) : Infinity;
}

/**
 * Miles from the job until the bearings fail, given the age of the set at the job: bearings are often
 * kept, while the job's own errors act from then on.
 */
export function drawBearingFailure(
  random: Random,
  axle: AxlePlan,
  installation: Installation,
  setAge: number,
): { age: number; cause: string } {
  let hazard = axle.lubricant === 'semi-fluid' ? SEMI_FLUID_BEARING_HAZARD : 1;
  let early = Infinity;
  let cause = 'wear';
  for (let index = 0; index < DEVIATIONS.length; index++) {
    if (!(installation.bits & (1 << index))) continue;
    const deviation = DEVIATIONS[index] as PlantedDeviation;
    hazard *= deviation.bearingHazard;
    const branch = earlyAge(random, deviation.bearingEarly);
    if (branch < early) {
      early = branch;
      cause = deviation.code;
    }
  }
  const { shape, scaleMiles } = BEARING_WEAR;
  const spent = Math.pow(setAge / scaleMiles, shape);
  const wear = scaleMiles * Math.pow(spent + random.exponential() / hazard, 1 / shape) - setAge;
  return wear <= early ? { age: wear, cause: 'wear' } : { age: early, cause };
}
