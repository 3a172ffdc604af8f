import type { Estimate } from '../../../shared/finding.ts';
import { createRandom, excessShare } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { methodOf, reasonAgainst, type Compared } from './ranking-ratios.ts';

/**
 * Draws of the bootstrap, and the lives up to which it is taken; beyond, vehicles' influences give the same
 * variance, without the draws in which a late entrant stands for thousands.
 */
const excessDraws = 200;
const mostBootstrapLives = 2_000;
const excessSeed = 20_261_130;

export interface Excess {
  readonly share: Estimate;
  readonly perThousand: Estimate;
}

export interface ExcessAsked {
  readonly level: number;
  readonly horizon: number;
  readonly early: number;
  readonly signal?: AbortSignal | undefined;
}

/** Failures by the horizon beyond those the adjusted model expects of the same lives without it, by ranked level. */
export function excessOf(compared: Compared, asked: ExcessAsked): Excess[] {
  return compared.exposure.ranked.map((_, ranked) => {
    const reason = reasonAgainst(compared, ranked);
    return reason === null ? excessOfLevel(compared, ranked, asked) : noExcess(asked.level, reason);
  });
}

function noExcess(level: number, reason: string): Excess {
  const about = { level, method: 'standardised to these lives', reason };
  return {
    share: noEstimate({ ...about, unit: 'share' }),
    perThousand: noEstimate({ ...about, unit: 'per 1,000 installations' }),
  };
}

function excessOfLevel({ exposure, lives, codes }: Compared, ranked: number, asked: ExcessAsked): Excess {
  const { level, horizon, early, signal } = asked;
  const { entry, exit, event, strata, cluster } = lives.lives;
  const covariates = { ...lives.lives.covariates, [exposure.column]: { levels: exposure.levels, codes } };
  const drawn = lives.rows <= mostBootstrapLives;
  const found = excessShare(
    { entry, exit, event, strata, cluster, covariates },
    {
      ...{ exposure: exposure.column, levels: [exposure.levels[exposure.ranked[ranked]?.level ?? 1] as string] },
      ...{ horizon, level, draws: excessDraws, random: createRandom(excessSeed) },
      ...(drawn ? {} : { limits: 'influence' as const }),
      ...(early < horizon ? { cut: early } : {}),
      onDraw: () => signal?.throwIfAborted(),
    },
  );
  const limits = drawn
    ? `bootstrap over vehicles, ${excessDraws} draws, seed ${excessSeed}`
    : 'limits from the influence of each vehicle';
  const method = `${methodOf(lives)}, standardised to these lives; ${limits}`;
  const about = { level, method, reason: inOurWords(found.reason) };
  return {
    share: toEstimate(found, { ...about, unit: 'share' }),
    perThousand: toEstimate(found.excessPerThousand, { ...about, unit: 'per 1,000 installations' }),
  };
}

/** The model's name of a column is no word of the reader's. */
const inOurWords = (reason: string | null): string | null =>
  reason?.replace(/ of dev_\S+?(, early|, later)?=\S+?(?=[:\s])/, ' of it$1') ?? null;
