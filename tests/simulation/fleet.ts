import type { Random } from '../../lib/statistics/numeric/random.ts';

/** A fleet whose truth is known: every marginal law below holds exactly, whatever the frailty within vehicles. */
export interface FleetPlan {
  readonly vehicles: number;
  /** Wheel ends on each. */
  readonly ends: number;
  /** Weibull of one life without the exposure: S(t) = exp(−(t/scale)^shape). */
  readonly shape: number;
  readonly scale: number;
  /** Hazard ratio of the exposure and the share that has it, drawn wheel end by wheel end or vehicle by vehicle. */
  readonly ratio: number;
  readonly exposedShare: number;
  readonly exposedBy: 'end' | 'vehicle';
  /** Kendall's tau between two lives on one vehicle, 0 for none. */
  readonly tau: number;
  /** Share of wheel ends whose records begin late, at an age uniform up to `latest`. */
  readonly lateShare: number;
  readonly latest: number;
  /** Records end at an age uniform between these two, the same for a whole vehicle. */
  readonly recordsEnd: readonly [number, number];
}

export interface Fleet {
  readonly exit: Float64Array;
  readonly event: Float64Array;
  readonly entry: Float64Array;
  readonly exposed: Float64Array;
  readonly vehicle: Int32Array;
  /** Lives as they would have run without end of records: what no real data set shows. */
  readonly life: Float64Array;
}

/** 120 vehicles of four wheel ends; about a third fail on record. Thousand miles. */
export const PLAIN_FLEET: FleetPlan = {
  ...{ vehicles: 120, ends: 4, shape: 1.6, scale: 300, ratio: 1, exposedShare: 0.4, exposedBy: 'end', tau: 0 },
  ...{ lateShare: 0, latest: 0, recordsEnd: [60, 300] },
};

/** Late entry on top: two in five wheel ends come under records at an age of up to 120. */
export const LATE_FLEET: FleetPlan = { ...PLAIN_FLEET, lateShare: 0.4, latest: 120 };

/** Wheel ends of one vehicle share its fate. */
export const FRAIL_FLEET: FleetPlan = { ...LATE_FLEET, tau: 0.4 };

/**
 * Frailty W is positive stable with Laplace transform exp(−sᵅ), α = 1 − tau (Hougaard 1986, Biometrika 73:671): the
 * only one that leaves the marginal hazards proportional and the marginal lives Weibull, so that the truth of every
 * marginal method is known. A life solves W·H(t)^(1/α) = E with E exponential and H(t) = ratioˣ·(t/scale)^shape.
 */
export function drawFleet(plan: FleetPlan, random: Random): Fleet {
  const rows: [exit: number, event: number, entry: number, exposed: number, vehicle: number, life: number][] = [];
  const alpha = 1 - plan.tau;
  for (let vehicle = 0; vehicle < plan.vehicles; vehicle++) {
    const frailty = plan.tau > 0 ? positiveStable(alpha, random) : 1;
    const [from, to] = plan.recordsEnd;
    const end = from + (to - from) * random.uniform();
    const wholeVehicle = random.uniform() < plan.exposedShare;
    for (let seat = 0; seat < plan.ends; seat++) {
      const exposed = plan.exposedBy === 'vehicle' ? wholeVehicle : random.uniform() < plan.exposedShare;
      const hazard = (random.exponential() / frailty) ** alpha / (exposed ? plan.ratio : 1);
      const life = plan.scale * hazard ** (1 / plan.shape);
      const entry = random.uniform() < plan.lateShare ? plan.latest * random.uniform() : 0;
      // A life over before its records begin, or records over by then, leaves no row at all.
      if (Math.min(life, end) > entry)
        rows.push([Math.min(life, end), life <= end ? 1 : 0, entry, exposed ? 1 : 0, vehicle, life]);
    }
  }
  const column = (index: 0 | 1 | 2 | 3 | 5) => Float64Array.from(rows, (row) => row[index]);
  const [exit, event, entry, exposed, life] = [column(0), column(1), column(2), column(3), column(5)];
  return { exit, event, entry, exposed, life, vehicle: Int32Array.from(rows, (row) => row[4]) };
}

/** Kanter 1975, Annals of Probability 3:697. */
function positiveStable(alpha: number, random: Random): number {
  const angle = Math.PI * random.uniform();
  const tilt = Math.sin((1 - alpha) * angle) / random.exponential();
  return (Math.sin(alpha * angle) / Math.sin(angle) ** (1 / alpha)) * tilt ** ((1 - alpha) / alpha);
}

/** True survival at an age, with or without the exposure. */
export const trueSurvival = (plan: FleetPlan, age: number, exposed = false): number =>
  Math.exp(-(exposed ? plan.ratio : 1) * (age / plan.scale) ** plan.shape);

/** True age by which a share has failed. */
export const trueLifeAt = (plan: FleetPlan, fraction: number, exposed = false): number =>
  plan.scale * (-Math.log1p(-fraction) / (exposed ? plan.ratio : 1)) ** (1 / plan.shape);

/** True mean life up to a horizon: the integral of the true survival by Simpson's rule on 2,000 panels. */
export function trueRestrictedMean(plan: FleetPlan, horizon: number, exposed = false): number {
  const panels = 2_000;
  let sum = 0;
  for (let i = 0; i <= panels; i++) {
    const weight = i === 0 || i === panels ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * trueSurvival(plan, (horizon * i) / panels, exposed);
  }
  return (sum * horizon) / panels / 3;
}
