import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import { twoSidedQuantile } from './confidence-limits.ts';
import { chiSquareTail } from './numeric/chi-square-tail.ts';
import { proportion } from './proportion.ts';

type Column = readonly (number | null)[];

/** Ratios of observed to expected with their limits, one a group; null where nothing is expected. */
export interface ObservedExpectedLimits {
  readonly ratio: Column;
  /** Exact given all events together, the expected share taken as known. */
  readonly lower: Column;
  readonly upper: Column;
  /** Of a ratio of 1, exact: twice the smaller tail. */
  readonly pValue: Column;
  /** Of the log ratio, clusters moving as one (rows, without `cluster`), the error of the expected carried; null without events. */
  readonly standardErrorLog: Column;
  readonly robustLower: Column;
  readonly robustUpper: Column;
  readonly robustPValue: Column;
}

export function observedExpectedLimits(
  observed: Float64Array,
  expected: Float64Array,
  influence: Float64Array,
  level: number,
): ObservedExpectedLimits {
  const z = twoSidedQuantile(level);
  const groups = observed.length;
  const total = observed.reduce((sum, events) => sum + events, 0);
  const columns = Array.from(observed, (events, one) => {
    const whole = expected[one] as number;
    if (!(whole > 0)) return nothing;
    const ratio = events / whole;
    let squares = 0;
    for (let place = one; place < influence.length; place += groups) squares += (influence[place] as number) ** 2;
    const error = events > 0 && influence.length > 0 ? Math.sqrt(squares) : null;
    return { ratio, ...exact(events, whole, total, level), ...robust(ratio, error, z) };
  });
  const column = (name: keyof ObservedExpectedLimits): Column => columns.map((one) => one[name]);
  return {
    ...{ ratio: column('ratio'), lower: column('lower'), upper: column('upper'), pValue: column('pValue') },
    ...{ standardErrorLog: column('standardErrorLog'), robustPValue: column('robustPValue') },
    ...{ robustLower: column('robustLower'), robustUpper: column('robustUpper') },
  };
}

const nothing: Readonly<Record<keyof ObservedExpectedLimits, null>> = {
  ...{ ratio: null, lower: null, upper: null, pValue: null },
  ...{ standardErrorLog: null, robustLower: null, robustUpper: null, robustPValue: null },
};

function exact(events: number, whole: number, total: number, level: number) {
  const share = Math.min(1, whole / total);
  const { lower, upper } = proportion({ events, total }, { level, method: 'clopper-pearson' });
  const atLeast = events === 0 ? 1 : betaCdf(share, events, total - events + 1);
  const atMost = events === total ? 1 : 1 - betaCdf(share, events + 1, total - events);
  return {
    ...{ lower: (lower as number) / share, upper: (upper as number) / share },
    pValue: Math.min(1, 2 * Math.min(atLeast, atMost)),
  };
}

function robust(ratio: number, error: number | null, z: number) {
  if (error === null) return { standardErrorLog: null, robustLower: null, robustUpper: null, robustPValue: null };
  return {
    ...{ standardErrorLog: error, robustLower: ratio * Math.exp(-z * error), robustUpper: ratio * Math.exp(z * error) },
    // One group alone is its own average: a ratio of 1 without error.
    robustPValue: error > 0 ? chiSquareTail((Math.log(ratio) / error) ** 2, 1) : 1,
  };
}
