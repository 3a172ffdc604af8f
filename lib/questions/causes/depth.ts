import type { Series } from '../../../shared/finding.ts';
import { shownLimits } from '../../../shared/finding.ts';
import { createRandom } from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import { placesWhere } from '../gather.ts';
import type { CausesEvidence } from './causes-evidence.ts';
import { partOf } from './part-of.ts';
import { sampleSeed } from './sampled-vehicles.ts';
import { adjustedRatios, type Compared } from './ranking-ratios.ts';
import type { RankedGroup } from './ranked-group.ts';
import type { Ratio } from './ratios.ts';
import { shadowRatios } from './shadows.ts';

/** Shadows drawn of the chosen deviation, and lives fitted in all for them at most. */
const mostShadows = 200;
const mostShadowLives = 4_000_000;
/** Values left out, or looked at alone, at most: those with most lives. */
const mostParts = 40;

interface Part {
  readonly name: string;
  readonly value: string;
  readonly keep: (place: number) => boolean;
}

/**
 * The chosen deviation looked into: its adjusted ratio without each shop and each year, within each
 * shop and each build, and of shadows: the same lives with who had it shuffled within shops, so that
 * whatever they show is chance.
 */
export async function depthOf(
  asking: Asking,
  evidence: CausesEvidence,
  groups: readonly RankedGroup[],
): Promise<Series[]> {
  const { view, signal, onProgress } = asking;
  const chosen = groups.find(({ compared }) => compared.exposure.deviation === view.deviation);
  if (view.deviation === null || !chosen) return [];
  const { compared, label } = chosen;
  const parts = partsOf(evidence, compared);
  const series: Series[] = [];
  for (const [done, part] of parts.entries()) {
    onProgress?.({ done, of: parts.length, doing: `${label}: one shop, year or build at a time` });
    await breathe(signal);
    const places = placesWhere(compared.codes.length, part.keep);
    series.push(seriesOf(part, partOf(compared, places), view.level));
  }
  return [...series, await shadows(asking, chosen)];
}

/** Shops and years left out, shops and builds alone; codes of them at the compared lives. */
function partsOf({ year, build }: CausesEvidence, { lives }: Compared): Part[] {
  const parts = (names: readonly (readonly [string, boolean])[], levels: readonly string[], codes: Int32Array) =>
    largest(levels, codes).flatMap((code) =>
      names.map(([name, out]): Part => ({
        ...{ name, value: levels[code] as string },
        keep: (place) => (codes[place] === code) !== out,
      })),
    );
  const { shop } = lives.lives;
  return [
    ...parts(
      [
        ['without-one-shop', true],
        ['one-shop', false],
      ],
      shop.levels,
      shop.codes,
    ),
    ...parts([['without-one-year', true]], year.levels, lives.take(year.codes)),
    ...parts([['one-build', false]], build.levels, lives.take(build.codes)),
  ];
}

function largest(levels: readonly string[], codes: Int32Array): number[] {
  const lives = new Float64Array(levels.length);
  for (const code of codes) lives[code] = (lives[code] as number) + 1;
  return [...levels.keys()]
    .filter((code) => (lives[code] as number) > 0)
    .sort((a, b) => (lives[b] as number) - (lives[a] as number))
    .slice(0, mostParts);
}

function seriesOf({ name, value }: Part, part: Compared, level: number): Series {
  const [ratio] = adjustedRatios(part, level);
  const at = (column: Float64Array, place: number) => column[place] as number;
  const { lives, failures } = part.counts;
  return {
    ...{ name, group: value },
    columns: {
      ...numbersOf(ratio),
      ...{ lives: [at(lives, 1)], failures: [at(failures, 1)] },
      ...{ livesWithout: [at(lives, 0)], failuresWithout: [at(failures, 0)] },
    },
  };
}

function numbersOf(ratio: Ratio | undefined): Series['columns'] {
  if (!ratio) return { ratio: [null], lower: [null], upper: [null] };
  const { lower, upper } = shownLimits(ratio.estimate);
  return { ratio: [ratio.estimate.value], lower: [lower], upper: [upper], pValue: [ratio.pValue] };
}

async function shadows({ view, signal, onProgress }: Asking, { compared, label }: RankedGroup): Promise<Series> {
  const random = createRandom(sampleSeed);
  const wanted = Math.max(20, Math.min(mostShadows, Math.floor(mostShadowLives / Math.max(1, compared.codes.length))));
  const found: Ratio[] = [];
  for (let done = 0; done < wanted; done++) {
    onProgress?.({ done, of: wanted, doing: `${label}: shadows, what chance alone shows` });
    await breathe(signal);
    const [ratio] = shadowRatios(compared, view.level, random);
    if (ratio) found.push(ratio);
  }
  const limits = found.map(({ estimate }) => shownLimits(estimate));
  return {
    ...{ name: 'shadow', group: label },
    columns: {
      ratio: found.map(({ estimate }) => estimate.value),
      lower: limits.map(({ lower }) => lower),
      upper: limits.map(({ upper }) => upper),
      pValue: found.map(({ pValue }) => pValue),
    },
  };
}
