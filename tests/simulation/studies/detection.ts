import {
  fitLife,
  kaplanMeier,
  quantile,
  survivalAt,
  turnbull,
  type SurvivalCurve,
} from '../../../lib/statistics/index.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { drawFleet, LATE_FLEET, PLAIN_FLEET, trueLifeAt, trueSurvival, type Fleet } from '../fleet.ts';
import { holds, type Study } from '../study.ts';

const AGE = 80;
const failedBy = (age: number) => 1 - trueSurvival(PLAIN_FLEET, age);

/** What a shop sees that looks at a vehicle every 20 to 40: a failure is only known to lie between two looks. */
function lookAt(fleet: Fleet, random: Random) {
  const looks = new Map<number, number[]>();
  const [lower, upper] = [new Float64Array(fleet.exit.length), new Float64Array(fleet.exit.length)];
  for (let row = 0; row < fleet.exit.length; row++) {
    const vehicle = fleet.vehicle[row] as number;
    const own = looks.get(vehicle) ?? [40 * random.uniform()];
    while ((own.at(-1) as number) < 260) own.push((own.at(-1) as number) + 20 + 20 * random.uniform());
    looks.set(vehicle, own);
    const found = own.find((age) => age >= (fleet.life[row] as number));
    const last = own.findLast((age) => age < (fleet.life[row] as number));
    [lower[row], upper[row]] = [last ?? 0, found ?? Infinity];
  }
  return { lower, upper };
}

const inspected: Study = {
  method: 'fitLife',
  setting: 'Weibull; failures found at looks 20 to 40 apart',
  claims: {
    'shape, from the intervals': 'covers',
    'B10 life, from the intervals': 'covers',
    'B10 life, dated at detection': 'off target',
  },
  play(random) {
    const found = lookAt(drawFleet({ ...PLAIN_FLEET, recordsEnd: [300, 300] }, random), random);
    const fit = fitLife(found, { distribution: 'weibull' });
    const late = fitLife(datedAtDetection(found), { distribution: 'weibull' });
    const truth = trueLifeAt(PLAIN_FLEET, 0.1);
    return {
      'shape, from the intervals': holds(fit.parameters.shape, PLAIN_FLEET.shape),
      'B10 life, from the intervals': holds(fit.lifeAt(0.1), truth),
      'B10 life, dated at detection': late.lifeAt(0.1).value / truth - 1,
    };
  },
};

/** The naive reading: a failure happened when it was found. */
function datedAtDetection({ lower, upper }: { lower: Float64Array; upper: Float64Array }) {
  const event = upper.map((end) => (Number.isFinite(end) ? 1 : 0));
  const exit = upper.map((end, row) => (Number.isFinite(end) ? end : Math.max(lower[row] as number, 1e-9)));
  return { exit, event };
}

const nonParametric: Study = {
  method: 'turnbull',
  setting: 'failures found at looks 20 to 40 apart',
  claims: { 'failed by 80, from the intervals': 'on target', 'failed by 80, dated at detection': 'off target' },
  play(random) {
    const found = lookAt(drawFleet({ ...PLAIN_FLEET, recordsEnd: [300, 300] }, random), random);
    const { intervals, survival } = turnbull(found);
    // Within an innermost interval the data do not say where its mass lies: spread it evenly.
    const place = intervals.upper.findIndex((end) => end >= AGE);
    const [from, to] = [intervals.lower[place] as number, intervals.upper[place] as number];
    const after = survival[place] as number;
    const inside = (intervals.mass[place] as number) * Math.max(0, Math.min(1, (to - AGE) / (to - from)));
    const naive = survivalAt(kaplanMeier(datedAtDetection(found))[0] as SurvivalCurve, AGE).survival as number;
    return {
      'failed by 80, from the intervals': (1 - after - inside) / failedBy(AGE) - 1,
      'failed by 80, dated at detection': (1 - naive) / failedBy(AGE) - 1,
    };
  },
};

const naive: Study = {
  method: 'kaplanMeier',
  setting: 'what the corrections are for',
  claims: {
    'failed by 80, late entry ignored': 'off target',
    'failed by 80, late entry heeded': 'on target',
    'failed by 160, running lives left out': 'off target',
    'failed by 160, end of records taken for failure': 'off target',
    'failed by 160, running lives as censored': 'on target',
    'B25 life, running lives left out': 'off target',
  },
  play(random) {
    const late = drawFleet(LATE_FLEET, random);
    const plain = drawFleet(PLAIN_FLEET, random);
    const failed = (data: Parameters<typeof kaplanMeier>[0], age: number) => {
      const { survival } = survivalAt(kaplanMeier(data)[0] as SurvivalCurve, age);
      return survival === null ? null : (1 - survival) / failedBy(age) - 1;
    };
    const failures = {
      exit: plain.exit.filter((_, row) => plain.event[row] === 1),
      event: plain.event.filter(Boolean),
    };
    const b25 = quantile(kaplanMeier(failures)[0] as SurvivalCurve, 0.25).value as number;
    return {
      'failed by 80, late entry ignored': failed({ exit: late.exit, event: late.event }, AGE),
      'failed by 80, late entry heeded': failed(late, AGE),
      'failed by 160, running lives left out': failed(failures, 160),
      'failed by 160, end of records taken for failure': failed(
        { exit: plain.exit, event: plain.event.map(() => 1) },
        160,
      ),
      'failed by 160, running lives as censored': failed(plain, 160),
      'B25 life, running lives left out': b25 / trueLifeAt(PLAIN_FLEET, 0.25) - 1,
    };
  },
};

export const detectionStudies: Study[] = [naive, nonParametric, inspected];
