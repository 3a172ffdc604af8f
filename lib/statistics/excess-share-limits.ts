import { twoSidedQuantile } from './confidence-limits.ts';
import type { Failed } from './excess-share-failed.ts';
import type { FailedInfluence } from './excess-share-influence.ts';
import type { Interval } from './interval.ts';

type Limits = Interval &
  Readonly<Record<'failedWithExposure' | 'failedWithoutExposure' | 'excessPerThousand', Interval>>;

/** Normal limits from influences: of the share on the log of F₀/F, of F and F₀ on the log of their odds, of the excess as it is. */
export function influenceLimits({ asRecorded, without }: Failed, influence: FailedInfluence, level: number): Limits {
  const z = twoSidedQuantile(level);
  const error = (of: (asRecorded: number, without: number) => number): number => {
    let sum = 0;
    for (let cluster = 0; cluster < influence.asRecorded.length; cluster++)
      sum += of(influence.asRecorded[cluster] as number, influence.without[cluster] as number) ** 2;
    return z * Math.sqrt(sum);
  };
  const share = error((one, other) => other / without - one / asRecorded);
  const excess = error((one, other) => 1000 * (one - other));
  const difference = 1000 * (asRecorded - without);
  return {
    value: 1 - without / asRecorded,
    lower: 1 - (without / asRecorded) * Math.exp(share),
    upper: 1 - (without / asRecorded) * Math.exp(-share),
    failedWithExposure: onOdds(
      asRecorded,
      error((one) => one),
    ),
    failedWithoutExposure: onOdds(
      without,
      error((_, other) => other),
    ),
    excessPerThousand: { value: difference, lower: difference - excess, upper: difference + excess },
  };
}

function onOdds(share: number, error: number): Interval {
  const odds = share / (1 - share);
  const away = Math.exp(error / (share * (1 - share)));
  const shareOf = (some: number) => some / (1 + some);
  return { value: share, lower: shareOf(odds / away), upper: shareOf(odds * away) };
}
