import { numberColumn } from '../engine/engine.ts';
import type { Statement } from '../engine/statement.ts';
import type { View } from '../../shared/view.ts';
import { run, type Asking } from './asking.ts';
import type { LeftOut } from './doubts/left-out.ts';
import type { Share } from './doubts/shares.ts';
import { groupKeysStatement, readGroupKeys, type GroupKeys } from './group-keys.ts';
import { mixMatters, mixStatement, readMix, type Mix } from './mix.ts';
import { leftOutStatement } from './scope.ts';
import { safetyCases, safetyCasesStatement, type SafetyCase } from './safety-cases.ts';
import { readShopTally, readTally, shopTallyStatement, tallyStatement, unplacedStatement } from './tally-rows.ts';
import type { ShopTally, Tally } from './tally-rows.ts';

/** Everything a question about rates reads. */
export interface RateEvidence {
  readonly keys: GroupKeys;
  readonly tally: Tally;
  readonly shops: readonly ShopTally[];
  readonly mix: Mix;
  readonly leftOut: LeftOut;
  readonly unplaced: Share;
  readonly cases: readonly SafetyCase[];
}

const table = 'lives_seal';

/** The statements of a question about rates, by what they are for. */
export const rateQueries = (view: View): Readonly<Record<string, Statement>> => ({
  groups: groupKeysStatement(view, table),
  tally: tallyStatement(view),
  shops: shopTallyStatement(view),
  unplaced: unplacedStatement(view),
  ...(view.by.length > 0 ? { leftOut: leftOutStatement(view, table) } : {}),
  ...(mixMatters(view) ? { mix: mixStatement(view, table) } : {}),
  ...(safetyCasesStatement(view) ? { cases: safetyCasesStatement(view) as Statement } : {}),
});

export async function rateEvidence(asking: Asking): Promise<RateEvidence> {
  const { source, view, signal } = asking;
  await source.ensure('seal', signal);
  const queries = rateQueries(view);
  const ask = (name: string) => run(asking, queries[name] as Statement);
  const keys = readGroupKeys(view, await ask('groups'));
  const unplaced = await ask('unplaced');
  const first = (name: string) => numberColumn(unplaced, name)[0] ?? 0;
  return {
    keys,
    tally: readTally(await ask('tally'), keys),
    shops: readShopTally(await ask('shops'), keys),
    mix: queries['mix'] ? readMix(await ask('mix'), keys) : new Map(),
    leftOut: await readLeftOut(asking, queries['leftOut'], keys),
    unplaced: { some: first('unplaced'), all: first('episodes') },
    cases: queries['cases'] ? safetyCases(await ask('cases')) : [],
  };
}

export async function readLeftOut(asking: Asking, statement: Statement | undefined, keys: GroupKeys): Promise<LeftOut> {
  if (!statement) return { notReplacement: 0, notApplicable: 0, beyond: keys.beyond };
  const result = await run(asking, statement);
  const first = (name: string) => numberColumn(result, name)[0] ?? 0;
  return { notReplacement: first('not_replacement'), notApplicable: first('not_applicable'), beyond: keys.beyond };
}
