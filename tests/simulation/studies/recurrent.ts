import { meanCumulativeDifference, meanCumulativeFunction, powerLawProcess } from '../../../lib/statistics/index.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { holds, type Study } from '../study.ts';

interface Plan {
  readonly vehicles: number;
  readonly ends: number;
  /** Variance of a vehicle's own factor on its failure rate, mean 1. */
  readonly spread: number;
  readonly shape: number;
  readonly scale: number;
  readonly watchedTo: readonly [number, number];
  readonly latest: number;
}

const PLAN: Plan = { vehicles: 100, ends: 1, spread: 0.5, shape: 1.4, scale: 150, watchedTo: [150, 300], latest: 60 };

/** Failures of repaired wheel ends: a power-law process each, true mean (t/scale)^shape. */
function drawRepairs({ vehicles, ends, spread, shape, scale, watchedTo, latest }: Plan, random: Random) {
  const rows: [exit: number, event: number, entry: number, subject: number, vehicle: number][] = [];
  for (let vehicle = 0; vehicle < vehicles; vehicle++) {
    const factor = spread > 0 ? random.gamma(1 / spread) * spread : 1;
    const end = watchedTo[0] + (watchedTo[1] - watchedTo[0]) * random.uniform();
    const entry = latest * random.uniform();
    for (let seat = 0; seat < ends; seat++) {
      let from = entry;
      for (let expected = factor * (entry / scale) ** shape; ;) {
        expected += random.exponential();
        const age = scale * (expected / factor) ** (1 / shape);
        const failed = age < end;
        rows.push([failed ? age : end, failed ? 1 : 0, from, vehicle * ends + seat, vehicle]);
        if (!failed) break;
        from = age;
      }
    }
  }
  const column = (index: 0 | 1 | 2) => Float64Array.from(rows, (row) => row[index]);
  const codes = (index: 3 | 4) => Int32Array.from(rows, (row) => row[index]);
  return { exit: column(0), event: column(1), entry: column(2), subject: codes(3), vehicle: codes(4) };
}

const repairs: Study = {
  method: 'meanCumulativeFunction',
  setting: '100 vehicles with rates of their own (variance 0.5), late entry',
  claims: {
    'limits at 80': 'covers',
    'limits at 150': 'covers',
    'as if failures were independent, at 150': 'falls short',
    'difference of two groups at 150': 'covers',
  },
  play(random) {
    const data = drawRepairs(PLAN, random);
    const curve = meanCumulativeFunction(data)[0];
    const groups = meanCumulativeFunction({ ...data, group: data.vehicle.map((vehicle) => vehicle % 2) });
    const [one, other] = groups;
    if (!curve || !one || !other) return {};
    const at = (age: number) => curve.time.findLastIndex((time) => time <= age);
    const truth = (age: number) => (age / PLAN.scale) ** PLAN.shape;
    const limits = (age: number) => ({ lower: curve.lower[at(age)], upper: curve.upper[at(age)] });
    const [mean, error] = [curve.mean[at(150)] as number, 1.96 * (curve.poissonStandardError[at(150)] as number)];
    const difference = meanCumulativeDifference(one, other);
    const place = difference.time.findLastIndex((time) => time <= 150);
    return {
      'limits at 80': holds(limits(80), truth(80)),
      'limits at 150': holds(limits(150), truth(150)),
      'as if failures were independent, at 150': holds({ lower: mean - error, upper: mean + error }, truth(150)),
      'difference of two groups at 150': holds({ lower: difference.lower[place], upper: difference.upper[place] }, 0),
    };
  },
};

const clusteredRepairs: Study = {
  method: 'meanCumulativeFunction',
  setting: 'four wheel ends on each of 60 vehicles with rates of their own (variance 0.5)',
  claims: { 'robust, by vehicle, at 150': 'covers', 'by wheel end, at 150': 'falls short' },
  play(random) {
    const data = drawRepairs({ ...PLAN, vehicles: 60, ends: 4, scale: 300 }, random);
    const curve = meanCumulativeFunction({ ...data, cluster: data.vehicle })[0];
    if (!curve) return {};
    const place = curve.time.findLastIndex((time) => time <= 150);
    const truth = 0.5 ** PLAN.shape;
    return {
      'robust, by vehicle, at 150': holds(
        { lower: curve.robustLower?.[place], upper: curve.robustUpper?.[place] },
        truth,
      ),
      'by wheel end, at 150': holds({ lower: curve.lower[place], upper: curve.upper[place] }, truth),
    };
  },
};

const powerLaw = (setting: string, plan: Plan, exact: boolean): Study => ({
  method: 'powerLawProcess',
  setting,
  claims: {
    shape: exact ? 'covers at least' : 'covers',
    'expected by 150': 'covers',
    'trend test, no trend': 'rejects at most',
  },
  play(random) {
    const unit = (data: ReturnType<typeof drawRepairs>) => ({ ...data, unit: data.subject });
    const fit = powerLawProcess(unit(drawRepairs(plan, random)));
    const flat = powerLawProcess(unit(drawRepairs({ ...plan, shape: 1 }, random)));
    return {
      shape: holds(fit.shape, plan.shape),
      'expected by 150': holds(fit.expectedAt(150), (150 / plan.scale) ** plan.shape),
      'trend test, no trend': trendRejects(flat),
    };
  },
});

function trendRejects({ trend }: ReturnType<typeof powerLawProcess>): boolean | null {
  const { pValue } = trend as { readonly pValue: number | null };
  return pValue === null ? null : pValue < 0.05;
}

const INDEPENDENT: Plan = { ...PLAN, vehicles: 30, spread: 0 };

export const recurrentStudies: Study[] = [
  repairs,
  clusteredRepairs,
  powerLaw('30 systems, watched to 200 from new', { ...INDEPENDENT, watchedTo: [200, 200], latest: 0 }, true),
  powerLaw('30 systems, late entry, ends of 150 to 300', INDEPENDENT, false),
];
