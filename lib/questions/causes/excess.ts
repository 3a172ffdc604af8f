import type { Estimate } from '../../../shared/finding.ts';
import { createRandom, excessShare } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { gather } from '../gather.ts';
import { count } from '../words/wording.ts';
import { methodOf, reasonAgainst, type Compared } from './ranking-ratios.ts';
import { sampledVehicles } from './sampled-vehicles.ts';

/** Draws of the bootstrap, and the most lives it is taken over: beyond them whole vehicles are drawn. */
export const excessDraws = 200;
const mostExcessLives = 60_000;
/** Of the bootstrap and of the vehicles drawn. */
export const excessSeed = 20_261_130;

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
  const all = lives.lives;
  const some = sampledVehicles(all.cluster, mostExcessLives, excessSeed);
  const pick = <T extends Float64Array | Int32Array | Uint8Array>(column: T): T =>
    some === null ? column : gather(column, some);
  const levelsAt = ({ levels, codes: of }: { levels: readonly string[]; codes: Int32Array }) => ({
    levels,
    codes: pick(of),
  });
  const covariates = Object.fromEntries(
    [...Object.entries(all.covariates), [exposure.column, { levels: exposure.levels, codes }] as const].map(
      ([name, column]) => [name, levelsAt(column)],
    ),
  );
  const found = excessShare(
    {
      ...{ entry: pick(all.entry), exit: pick(all.exit), event: pick(all.event), covariates },
      ...{ strata: levelsAt(all.strata), cluster: levelsAt(all.cluster) },
    },
    {
      ...{ exposure: exposure.column, levels: [exposure.levels[exposure.ranked[ranked]?.level ?? 1] as string] },
      ...{ horizon, level, draws: excessDraws, random: createRandom(excessSeed) },
      ...(early < horizon ? { cut: early } : {}),
      onDraw: () => signal?.throwIfAborted(),
    },
  );
  const over = some === null ? '' : `, over ${count(some.length)} of ${count(lives.rows)} lives (whole vehicles drawn)`;
  const method = `${methodOf(lives)}, standardised to these lives${over}; bootstrap over vehicles, ${excessDraws} draws, seed ${excessSeed}`;
  const about = { level, method, reason: found.reason };
  return {
    share: toEstimate(found, { ...about, unit: 'share' }),
    perThousand: toEstimate(found.excessPerThousand, { ...about, unit: 'per 1,000 installations' }),
  };
}
