import { type Installation, FACTORY } from './draw-installation.ts';
import { drawBearingFailure, drawSeep, earlyAge } from './draw-seal-life.ts';
import type { AxlePlan, DemoUnit } from './draw-unit.ts';
import { bitOf } from './planted-deviations.ts';
import {
  BEARING_DAMAGE_PER_LEAK_MILE,
  DETECTION,
  EARLY_LAG_FACTOR,
  FRAILTY_VARIANCE,
  GASKET,
  SOAK_MILES,
} from './planted-effects.ts';
import type { LifeTruth } from './life-truth-row.ts';
import type { BearingSet, Episode, SealLife, SideTrouble } from './wheel-end-state.ts';

const GASKET_REUSED = bitOf('gasket-reused');
const OVERFILLED = bitOf('overfilled');
const UNDERFILLED = bitOf('underfilled');
/** Nothing is noticed on the day of the job itself. */
const FIRST_DAY = 1;

/** State of one wheel end while a unit's history is played through. */
export class WheelEnd {
  readonly unit: DemoUnit;
  readonly axle: AxlePlan;
  readonly side: 'left' | 'right';
  readonly frailty: number;
  priorFailures = 0;
  episode: Episode | null = null;
  life!: SealLife;
  trouble!: SideTrouble;
  bearings!: BearingSet;
  renewalDay = Infinity;

  constructor(unit: DemoUnit, axle: AxlePlan, side: 'left' | 'right') {
    this.unit = unit;
    this.axle = axle;
    this.side = side;
    this.frailty = unit.frailty * unit.random.frailty(FRAILTY_VARIANCE.wheelEnd);
  }

  get detection(): (typeof DETECTION)[keyof typeof DETECTION] {
    return DETECTION[this.axle.lubricant];
  }

  /** The seal the unit came with: from the factory, or of an age nobody wrote down. */
  startFirst(truth: LifeTruth): void {
    const { random, mileage, fromDay, knownNew } = this.unit;
    const odometer = mileage.at(fromDay);
    const age = knownNew ? 0 : random.between(0, Math.min(odometer, 200_000));
    this.startSeal(truth, FACTORY, fromDay, odometer - age, odometer);
    this.startBearings(FACTORY, odometer, knownNew ? odometer : odometer - age);
    this.startTrouble(FACTORY, fromDay, odometer);
  }

  /** `notBefore`: an old seal met for the first time is one that does not leak yet. */
  startSeal(truth: LifeTruth, installation: Installation, day: number, installMiles: number, notBefore: number): void {
    const { random, mileage, duty } = this.unit;
    const { axle, frailty, priorFailures, detection } = this;
    const conditions = { axle, duty, frailty, priorFailures, lot: truth.seal_lot };
    let seep = drawSeep(random, conditions, installation);
    for (let again = 0; installMiles + seep.age < notBefore && again < 50; again++)
      seep = drawSeep(random, conditions, installation);
    const seepMiles = Math.max(installMiles + seep.age, notBefore);
    const pace = seep.cause === 'wear' ? 1 : EARLY_LAG_FACTOR;
    const detectMiles = seepMiles + pace * random.exponential(detection.lagMiles);
    const wetMiles = detectMiles + pace * random.exponential(detection.wetMiles);
    const dripMiles = wetMiles + pace * random.exponential(detection.dripMiles);
    const noticed = dripMiles + random.exponential(1 / detection.driverPerMile);
    this.life = {
      truth,
      installation,
      installDay: day,
      installMiles,
      cause: seep.cause,
      detectMiles,
      wetMiles,
      dripMiles,
      soakMiles: detectMiles + random.exponential(SOAK_MILES[axle.lubricant]),
      driverDay: Math.max(day + FIRST_DAY, mileage.dayReaching(noticed)),
      mode: this.sealMode(seep.cause),
    };
    truth.cause = seep.cause;
    truth.onset_age = Math.max(1, Math.round(detectMiles - truth.install_miles));
  }

  private sealMode(cause: string): string {
    const { random } = this.unit;
    if (random.chance(0.38)) return 'seal-unknown';
    const atBore = cause === 'seal-cocked' ? 0.7 : 0.25;
    return random.chance(atBore) ? 'seal-outer' : 'seal-inner';
  }

  startBearings(installation: Installation, jobMiles: number, setInstallMiles: number): void {
    const { random, mileage } = this.unit;
    const failure = drawBearingFailure(random, this.axle, installation, jobMiles - setInstallMiles);
    const byLeak = this.life.detectMiles + random.exponential(1 / BEARING_DAMAGE_PER_LEAK_MILE[this.axle.lubricant]);
    const failMiles = Math.min(jobMiles + failure.age, byLeak);
    this.bearings = {
      installMiles: setInstallMiles,
      cause: failMiles === byLeak ? 'leak' : failure.cause,
      looseMiles: Math.max(jobMiles + 0.5 * (failMiles - jobMiles), failMiles - random.between(2_000, 15_000)),
      failDay: Math.max(this.life.installDay + FIRST_DAY, mileage.dayReaching(failMiles)),
    };
  }

  startTrouble(installation: Installation, day: number, miles: number): void {
    const { random, mileage } = this.unit;
    let mode = this.axle.role === 'drive' ? 'gasket-flange' : 'gasket-hubcap';
    let age = this.axle.build === 'unitized' ? Infinity : random.exponential(1 / GASKET.failuresPerMile);
    const consider = (bit: number, branch: Parameters<typeof earlyAge>[1], named: string): void => {
      const early = installation.bits & bit ? earlyAge(random, branch) : Infinity;
      if (early >= age) return;
      age = early;
      mode = named;
    };
    consider(GASKET_REUSED, GASKET.reusedEarly, mode);
    consider(OVERFILLED, GASKET.overfilledVentEarly, 'vent');
    consider(UNDERFILLED, GASKET.underfilledLowEarly, 'lubricant-low');
    const noticed = miles + age + random.exponential(30_000);
    this.trouble = {
      mode,
      fromMiles: miles + age,
      driverDay: Math.max(day + FIRST_DAY, mileage.dayReaching(noticed)),
    };
  }

  /** 0 dry, 1 damp, 2 wet, 3 dripping or on the lining. */
  sealLeakAt(miles: number): 0 | 1 | 2 | 3 {
    const { detectMiles, wetMiles, dripMiles } = this.life;
    return miles < detectMiles ? 0 : miles < wetMiles ? 1 : miles < dripMiles ? 2 : 3;
  }

  soakedAt(miles: number): boolean {
    return miles >= this.life.soakMiles;
  }
}
