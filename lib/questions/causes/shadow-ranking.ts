import type { Doubt, Estimate } from '../../../shared/finding.ts';
import { adjustPValues, createRandom, proportion } from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import { doubt, failsIf } from '../doubts/doubt.ts';
import { noEstimate } from '../estimate.ts';
import { firmnessRule } from '../firmness.ts';
import { count, counted, ratioText } from '../words/wording.ts';
import type { RankedGroup } from './ranked-group.ts';
import { anyRatio, type Compared } from './ranking-ratios.ts';
import type { Ratio } from './ratios.ts';
import { sampleSeed } from './sampled-vehicles.ts';
import { overDrawn, type Samples } from './samples.ts';
import { dealtWithin, shadowRatios } from './shadows.ts';

/** Whole rankings of shadows at most, at least, and the work spent on them: lives fitted, times the square of the levels told apart. */
const [mostRankings, leastRankings] = [20, 3];
const mostShadowWork = 30_000_000;

/** Rankings made of shadows alone, and how many of them would have cried wolf. */
export interface ShadowRanking {
  readonly rankings: number;
  /** Rankings in which a line stood beyond chance, corrected for all its lines; of 20 true ones about one. */
  readonly crying: number;
  /** As the lives are dealt: `within shop`, or among all of them. */
  readonly within: string;
  /** Farthest ratio from 1 that chance alone showed. */
  readonly farthest: number | null;
}

/**
 * The whole ranking again with every deviation dealt out at random among the lives of each shop, so
 * that the reader sees beside each ratio what chance alone makes of the same lives; fills
 * `shadowHazardRatio` of each line with the least and the greatest.
 */
export async function shadowRanking(
  { view, signal, onProgress }: Asking,
  groups: readonly RankedGroup[],
  samples: Samples,
): Promise<ShadowRanking> {
  const compared = [...new Set(groups.map((group) => group.compared))].filter(anyRatio);
  const parts = compared.map((one) => samples.of(one));
  const work = parts.reduce((sum, { lives, exposure }) => sum + lives.rows * exposure.levels.length ** 2, 0);
  const rankings =
    compared.length === 0 ? 0 : Math.max(leastRankings, Math.min(mostRankings, Math.floor(mostShadowWork / work)));
  const random = createRandom(sampleSeed);
  const drawn = new Map(groups.map((group): [RankedGroup, number[]] => [group, []]));
  let [crying, farthest] = [0, 1];
  for (let done = 0; done < rankings; done++) {
    onProgress?.({ done, of: rankings, doing: 'shadows, what chance alone shows' });
    const shown: Ratio[] = [];
    for (const [at, part] of parts.entries()) {
      await breathe(signal);
      const ratios = shadowRatios(part, view.level, random);
      shown.push(...ratios);
      for (const [group, ratio] of linesOf(groups, compared[at] as Compared, ratios)) drawn.get(group)?.push(ratio);
    }
    const corrected = adjustPValues(
      shown.map(({ pValue }) => pValue),
      { method: 'holm' },
    );
    if (corrected.some((pValue) => pValue !== null && pValue < firmnessRule.firmPValue)) crying++;
    for (const { estimate } of shown) farthest = Math.max(farthest, distance(estimate.value));
  }
  for (const [group, ratios] of drawn) {
    const fitted = parts[compared.indexOf(group.compared)]?.lives.rows ?? 0;
    group.estimates['shadowHazardRatio'] = rangeOf(ratios, group, rankings, fitted);
  }
  const within = groups[0] ? dealtWithin(groups[0].compared) : '';
  return { rankings, crying, within, farthest: farthest === 1 ? null : farthest };
}

/** How many times either way of 1; 1 where there is no ratio. */
const distance = (ratio: number | null): number => (ratio === null || ratio <= 0 ? 1 : Math.max(ratio, 1 / ratio));

function linesOf(groups: readonly RankedGroup[], compared: Compared, ratios: readonly Ratio[]) {
  return groups
    .filter((group) => group.compared === compared)
    .flatMap((group, ranked): [RankedGroup, number][] => {
      const value = ratios[ranked]?.estimate.value ?? null;
      return value === null ? [] : [[group, value]];
    });
}

/** Least and greatest of n draws hold a further one in (n − 1)/(n + 1) of cases (David & Nagaraja 2003 §7.2). */
function rangeOf(
  ratios: readonly number[],
  { ratio, compared }: RankedGroup,
  rankings: number,
  fitted: number,
): Estimate {
  const about = {
    ...{ unit: 'ratio', level: Math.max(0, (ratios.length - 1) / (ratios.length + 1)) },
    method: `dealt out at random ${dealtWithin(compared)} ${count(rankings)} times, seed ${sampleSeed}; the least and the greatest${overDrawn(fitted, compared.lives.rows)}`,
  };
  if (ratios.length < 2 || ratio.estimate.value === null)
    return noEstimate({ ...about, reason: 'no ratio to set beside it' });
  const sorted = [...ratios].sort((a, b) => a - b);
  const middle = sorted[sorted.length >> 1] as number;
  return { ...about, value: middle, lower: sorted[0] as number, upper: sorted.at(-1) as number };
}

/** Whether even the exact lower limit (one-sided, at the level of firmness) lies above what chance alone may. */
function oftenerThanChance(crying: number, rankings: number): boolean {
  const chance = firmnessRule.firmPValue;
  const { lower } = proportion(
    { events: crying, total: rankings },
    { method: 'clopper-pearson', level: 1 - 2 * chance },
  );
  return lower !== null && lower > chance;
}

/** Whether the same pipeline cries wolf where there is nothing. */
export function shadowDoubt({ rankings, crying, within, farthest }: ShadowRanking): Doubt | null {
  if (rankings === 0) return null;
  const reached =
    farthest === null
      ? ''
      : ` The farthest ratio from 1 that chance alone showed is ${ratioText(farthest)} (or its inverse).`;
  const stood =
    crying === 0
      ? 'in none of them a line stood'
      : crying === 1
        ? 'in one of them a line stood'
        : `in ${count(crying)} of them a line stood`;
  return doubt(
    'Chance alone',
    failsIf(oftenerThanChance(crying, rankings)),
    `With every deviation dealt out at random ${within}, the whole ranking was made ${counted(rankings, 'time')}: ${stood} beyond chance; one in twenty may.${reached}`,
    'more vehicles: a few of them carry the differences',
  );
}
