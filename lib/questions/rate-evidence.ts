import type { Asking } from './asking.ts';
import { askedLives } from './columns/asked-lives.ts';
import type { Share } from './doubts/shares.ts';
import type { GroupKeys } from './group-keys.ts';
import { mixOf, type Mix } from './mix.ts';
import { safetyCases, type SafetyCase } from './safety-cases.ts';
import { scopeOf, type LeftOut } from './scope.ts';
import { countsEpisode, tallyBy, type Tally } from './tally.ts';
import { wheelEndsOf } from './wheel-ends.ts';

/** Everything a question about rates reads: seal lives, whose exposure is that of the wheel ends, and all episodes. */
export interface RateEvidence {
  readonly keys: GroupKeys;
  readonly vehicles: Tally;
  readonly shops: Tally;
  readonly shopNames: readonly string[];
  /** By group. */
  readonly wheelEnds: readonly number[];
  readonly mix: Mix;
  readonly leftOut: LeftOut;
  readonly unplaced: Share;
  /** Lives whose miles are estimated. */
  readonly estimated: number;
  readonly cases: readonly SafetyCase[] | null;
}

export async function rateEvidence(asking: Asking): Promise<RateEvidence> {
  const { source, view, signal } = asking;
  const lives = askedLives(source, 'seal');
  const scope = await scopeOf(asking, lives);
  const episodes = await lives.episodes(signal);
  const { extrapolated } = await lives.columns(signal);
  const counts = countsEpisode(view, episodes);
  const counted = episodes.life.filter((_, episode) => counts(episode));
  return {
    keys: scope.keys,
    vehicles: await tallyBy('unit_id', asking, lives, scope),
    shops: await tallyBy('shop', asking, lives, scope),
    shopNames: (await lives.cut('shop', signal)).levels,
    wheelEnds: await wheelEndsOf(asking, lives, scope),
    mix: await mixOf(asking, lives, scope),
    leftOut: scope.leftOut,
    estimated: scope.rows.reduce((sum, row) => sum + (extrapolated[row] as number), 0),
    unplaced: { some: counted.filter((life) => life < 0).length, all: counted.length },
    cases: await safetyCases(asking, lives, scope, 'seal'),
  };
}
