import type { Doubt, Estimate } from '../../../shared/finding.ts';
import { adjustPValues, createRandom } from '../../statistics/index.ts';
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
import type { Samples } from './samples.ts';
import { shadowRatios } from './shadows.ts';

/** Whole rankings of shadows at most, at least, and the work spent on them: lives fitted, times the square of the levels told apart. */
const [mostRankings, leastRankings] = [20, 3];
const mostShadowWork = 30_000_000;

/** Rankings made of shadows alone, and how many of them would have cried wolf. */
export interface ShadowRanking {
  readonly rankings: number;
  /** Rankings in which a line stood beyond chance, corrected for all its lines; of 20 true ones about one. */
  readonly crying: number;
  /** As often or oftener in rankings that err one time in twenty. */
  readonly pValue: number;
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
  for (const [group, ratios] of drawn) group.estimates['shadowHazardRatio'] = rangeOf(ratios, group, rankings);
  return { rankings, crying, pValue: atLeast(crying, rankings), farthest: farthest === 1 ? null : farthest };
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
function rangeOf(ratios: readonly number[], { ratio }: RankedGroup, rankings: number): Estimate {
  const about = {
    ...{ unit: 'ratio', level: Math.max(0, (ratios.length - 1) / (ratios.length + 1)) },
    method: `dealt out at random within shops ${count(rankings)} times, seed ${sampleSeed}; the least and the greatest`,
  };
  if (ratios.length < 2 || ratio.estimate.value === null)
    return noEstimate({ ...about, reason: 'no ratio to set beside it' });
  const sorted = [...ratios].sort((a, b) => a - b);
  const middle = sorted[sorted.length >> 1] as number;
  return { ...about, value: middle, lower: sorted[0] as number, upper: sorted.at(-1) as number };
}

/** Chance of so many or more of n that each happen one time in twenty. */
function atLeast(some: number, n: number): number {
  let [term, below] = [(1 - firmnessRule.firmPValue) ** n, 0];
  for (let k = 0; k < some; k++) {
    below += term;
    term *= (((n - k) / (k + 1)) * firmnessRule.firmPValue) / (1 - firmnessRule.firmPValue);
  }
  return Math.max(0, 1 - below);
}

/** Whether the same pipeline cries wolf where there is nothing. */
export function shadowDoubt({ rankings, crying, pValue, farthest }: ShadowRanking): Doubt | null {
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
    failsIf(pValue < firmnessRule.firmPValue),
    `With every deviation dealt out at random within shops, the whole ranking was made ${counted(rankings, 'time')}: ${stood} beyond chance; one in twenty may.${reached}`,
    'more vehicles: a few of them carry the differences',
  );
}
