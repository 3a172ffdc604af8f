import type { Asking } from './asking.ts';
import { askedLives } from './columns/asked-lives.ts';
import type { GroupKeys } from './group-keys.ts';
import { lifeRows, type LifeRows } from './life-rows.ts';
import { mixOf, type Mix } from './mix.ts';
import { safetyCases, type SafetyCase } from './safety-cases.ts';
import { scopeOf, type LeftOut } from './scope.ts';

/** Everything a question about ages reads. */
export interface LifeEvidence {
  readonly keys: GroupKeys;
  readonly lives: LifeRows;
  readonly mix: Mix;
  readonly leftOut: LeftOut;
  readonly cases: readonly SafetyCase[] | null;
}

export async function lifeEvidence(asking: Asking): Promise<LifeEvidence> {
  const { source, view } = asking;
  const lives = askedLives(source, view.component);
  const scope = await scopeOf(asking, lives);
  return {
    keys: scope.keys,
    lives: await lifeRows(asking, lives, scope),
    mix: await mixOf(asking, lives, scope),
    leftOut: scope.leftOut,
    cases: await safetyCases(asking, lives, scope, view.component),
  };
}
