import type { Random } from '../../lib/statistics/numeric/random.ts';
import { drawFleet } from './fleet.ts';

/**
 * A fleet in which an exposure multiplies the hazard by one ratio up to a cut and by another after it, heavy duty by
 * a third, and each shop has its own level; shops and duties differ in how often they leave a wheel end exposed, so
 * that a crude comparison is confounded. Thousand miles.
 */
export interface ExcessPlan {
  readonly vehicles: number;
  readonly early: number;
  readonly later: number;
  readonly cut: number;
  /** Share exposed by shop, on light duty and on heavy. */
  readonly exposedShare: readonly (readonly [light: number, heavy: number])[];
  readonly exposedBy: 'end' | 'vehicle';
  /** Scale of the Weibull life (shape 1.4) by shop. */
  readonly scale: readonly number[];
  readonly duty: number;
  readonly tau: number;
  readonly lateShare: number;
  readonly latest: number;
  readonly recordsEnd: readonly [number, number];
}

export const EXCESS_PLAN: ExcessPlan = {
  ...{ vehicles: 250, early: 3, later: 1.3, cut: 25, exposedBy: 'end', duty: 1.6, tau: 0.4 },
  ...{ lateShare: 0.3, latest: 60, recordsEnd: [50, 300], scale: [500, 300, 400] },
  exposedShare: [
    [0.1, 0.2],
    [0.3, 0.5],
    [0.2, 0.3],
  ],
};

const SHAPE = 1.4;

/** Cumulative hazard at an age without the exposure. */
const baseline = ({ scale, duty }: ExcessPlan, shop: number, heavy: number, age: number): number =>
  (heavy ? duty : 1) * (age / (scale[shop] as number)) ** SHAPE;

function cumulativeHazard(plan: ExcessPlan, shop: number, heavy: number, exposed: boolean, age: number): number {
  const early = baseline(plan, shop, heavy, Math.min(age, plan.cut));
  const later = baseline(plan, shop, heavy, age) - early;
  return exposed ? plan.early * early + plan.later * later : early + later;
}

/** Age at which the cumulative hazard is reached. */
function ageAt(plan: ExcessPlan, shop: number, heavy: number, exposed: boolean, hazard: number): number {
  const atCut = baseline(plan, shop, heavy, plan.cut);
  const without = !exposed
    ? hazard
    : hazard <= plan.early * atCut
      ? hazard / plan.early
      : atCut + (hazard - plan.early * atCut) / plan.later;
  return (plan.scale[shop] as number) * (without / (heavy ? plan.duty : 1)) ** (1 / SHAPE);
}

const SHOPS = ['a', 'b', 'c'];

/** Columns as the statistics take them; wheel ends of a vehicle share its duty, its fate and mostly its shop. */
export function drawExcessFleet(plan: ExcessPlan, random: Random) {
  // Unit exponential marginally, tied within vehicles by the frailty: a cumulative hazard to be reached.
  const reached = drawFleet(
    {
      ...{ vehicles: plan.vehicles, ends: 4, shape: 1, scale: 1, ratio: 1, exposedShare: 0, exposedBy: 'end' },
      ...{ tau: plan.tau, lateShare: 0, latest: 0, recordsEnd: [1e300, 1e300] },
    },
    random,
  );
  const rows: {
    exit: number;
    event: number;
    entry: number;
    exposed: number;
    heavy: number;
    shop: number;
    vehicle: number;
  }[] = [];
  for (let vehicle = 0, row = 0; vehicle < plan.vehicles; vehicle++) {
    const heavy = random.uniform() < 0.4 ? 1 : 0;
    const home = random.below(3);
    const [from, to] = plan.recordsEnd;
    const end = from + (to - from) * random.uniform();
    const luck = random.uniform();
    for (let seat = 0; seat < 4; seat++, row++) {
      const shop = random.uniform() < 0.8 ? home : random.below(3);
      const share = plan.exposedShare[shop]?.[heavy] as number;
      const exposed = (plan.exposedBy === 'vehicle' ? luck : random.uniform()) < share;
      const life = ageAt(plan, shop, heavy, exposed, reached.life[row] as number);
      const entry = random.uniform() < plan.lateShare ? plan.latest * random.uniform() : 0;
      if (Math.min(life, end) > entry)
        rows.push({
          exit: Math.min(life, end),
          event: life <= end ? 1 : 0,
          entry,
          exposed: exposed ? 1 : 0,
          heavy,
          shop,
          vehicle,
        });
    }
  }
  const column = (name: 'exit' | 'event' | 'entry' | 'exposed' | 'heavy') =>
    Float64Array.from(rows, (row) => row[name]);
  return {
    exit: column('exit'),
    event: column('event'),
    entry: column('entry'),
    strata: { levels: SHOPS, codes: Int32Array.from(rows, ({ shop }) => shop) },
    cluster: Int32Array.from(rows, ({ vehicle }) => vehicle),
    covariates: { exposed: column('exposed'), heavy: column('heavy') },
  };
}

/** Share failed by an age over all lives, late ones and those never seen included: as recorded, and had none been exposed. */
export function trueFailed(plan: ExcessPlan, age: number) {
  let [asRecorded, without] = [0, 0];
  for (let shop = 0; shop < 3; shop++)
    for (const heavy of [0, 1] as const) {
      const part = (heavy ? 0.4 : 0.6) / 3;
      const share = plan.exposedShare[shop]?.[heavy] as number;
      const failed = (exposed: boolean) => -Math.expm1(-cumulativeHazard(plan, shop, heavy, exposed, age));
      asRecorded += part * (share * failed(true) + (1 - share) * failed(false));
      without += part * failed(false);
    }
  return { asRecorded, without, excessShare: 1 - without / asRecorded };
}
