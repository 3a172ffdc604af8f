import { shownLimits, type Estimate, type Finding } from '../../shared/finding.ts';
import { eventRate, proportion, type Interval } from '../statistics/index.ts';
import type { Asking } from './asking.ts';
import { liningUnknown } from './doubts/lining-unknown.ts';
import { noEstimate, toEstimate } from './estimate.ts';
import { rateFinding, type GroupAt, type RateQuestion } from './rate-finding.ts';
import { rateName } from './age-axis.ts';
import { rateEstimate } from './rates.ts';
import { contaminationAnswer } from './words/contamination-answer.ts';

/**
 * Limits of a share that allow for vehicles: the share is a ratio of sums over vehicles, so its
 * linearised variance is that of a rate per leak (Cochran, Sampling Techniques, §9A.6); no share
 * exceeds 1. Null where vehicles cannot tell.
 */
function shareByVehicle({ group, evidence, level }: GroupAt): Interval | null {
  const tally = evidence.vehicles;
  const rows = Array.from({ length: tally.rows }, (_, row) => row).filter((row) => tally.group[row] === group);
  const soaked = rows.map((row) => tally.columns.leaksSoaked[row] as number);
  const told = rows.map((row, place) => (soaked[place] as number) + (tally.columns.leaksClean[row] as number));
  const withLeaks = rows.flatMap((_, place) => ((told[place] as number) > 0 ? [place] : []));
  if (withLeaks.length === 0) return null;
  const pick = (values: readonly number[]) => withLeaks.map((place) => values[place] as number);
  const units = withLeaks.map((place) => tally.by[rows[place] as number] as number);
  const { robust } = eventRate({ events: pick(soaked), exposure: pick(told), cluster: units }, { level });
  const upper = robust?.rate.upper ?? null;
  return robust && upper !== null ? { ...robust.rate, upper: Math.min(1, upper) } : null;
}

const aboutShare = (level: number) => ({ level, unit: 'share', method: 'Wilson score' });

function shareEstimates(counts: Readonly<Record<string, number>>, at: GroupAt): Record<string, Estimate> {
  const [soaked, clean, unknown] = ['leaksSoaked', 'leaksClean', 'leaksUnknown'].map((name) => counts[name] ?? 0) as [
    number,
    number,
    number,
  ];
  const share = (events: number, total: number, reason: string, vehicle: Interval | null = null) =>
    total === 0
      ? noEstimate({ ...aboutShare(at.level), reason })
      : toEstimate(proportion({ events, total }, { level: at.level }), aboutShare(at.level), vehicle);
  const all = soaked + clean + unknown;
  return {
    contaminatedShareOfLeaks: share(
      soaked,
      soaked + clean,
      'no seal leak says whether the lining was soaked',
      shareByVehicle(at),
    ),
    contaminatedShareIfUnknownNo: share(soaked, all, 'no seal leak was found'),
    contaminatedShareIfUnknownYes: share(soaked + unknown, all, 'no seal leak was found'),
  };
}

/**
 * Where do linings get soaked? Failure episodes of any mode whose lining was soaked over all miles
 * watched; and of the seal leaks that say either way, the share that reached the lining. A leak
 * that says nothing is neither: it is counted, and the share is bounded both ways.
 */
const question: RateQuestion = {
  id: 'contamination',
  title: 'Where do linings get soaked?',
  events: 'contaminated',
  what: { event: 'soaked lining', happens: 'linings are soaked', happened: 'linings were soaked' },
  counts: {
    contaminated: 'contaminated',
    liningUnknown: 'liningUnknown',
    leaksSoaked: 'leaksSoaked',
    leaksClean: 'leaksClean',
    leaksUnknown: 'leaksUnknown',
  },
  estimates: (rate, counts, at) => ({
    [rateName('contaminated', at.axis)]: rateEstimate(rate, at.level, at.axis),
    ...shareEstimates(counts, at),
  }),
  answer: contaminationAnswer,
  doubts: (groups) =>
    groups.slice(0, 1).map(() => {
      const total = (name: string) => groups.reduce((sum, group) => sum + (group.counts[name] ?? 0), 0);
      const [soaked, clean, unknown] = [total('leaksSoaked'), total('leaksClean'), total('leaksUnknown')];
      const whole = groups.length === 1 ? groups[0]?.estimates['contaminatedShareOfLeaks'] : undefined;
      const limits = whole ? shownLimits(whole) : proportion({ events: soaked, total: soaked + clean });
      return liningUnknown({ soaked, clean, unknown, lower: limits.lower, upper: limits.upper });
    }),
};

export const contamination = (asking: Asking): Promise<Finding> => rateFinding(question, asking);
