import { numberColumn, textColumn, type ResultTable } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { livesTable } from '../lives/index.ts';
import type { View } from '../../shared/view.ts';
import { run, type Asking } from './asking.ts';
import type { Carried } from './doubts/leave-one-out.ts';
import type { LeftOut } from './doubts/left-out.ts';
import { groupCode, groupKeysStatement, labelColumns, readGroupKeys, type GroupKeys } from './group-keys.ts';
import { lifeRowsStatement, readLifeRows, type LifeRows } from './life-rows.ts';
import { mixMatters, mixStatement, readMix, type Mix } from './mix.ts';
import { readLeftOut } from './rate-evidence.ts';
import { safetyCases, safetyCasesStatement, type SafetyCase } from './safety-cases.ts';
import { leftOutStatement, scopeSql } from './scope.ts';

/** Everything a question about ages reads. */
export interface LifeEvidence {
  readonly keys: GroupKeys;
  readonly lives: LifeRows;
  readonly shops: readonly Carried[];
  readonly mix: Mix;
  readonly leftOut: LeftOut;
  readonly cases: readonly SafetyCase[];
}

/** Failures and miles of lives with an age, by group and the shop that fitted the part. */
function shopStatement(view: View): Statement {
  const failed = view.mode === null ? sql`state = 'failed'` : sql`state = 'failed' and mode = ${view.mode}`;
  const cut = view.by.length > 0 ? sql`, ${labelColumns(view)}` : sql``;
  const labels: Statement = { text: view.by.map((_, index) => `label_${index}, `).join(''), values: [] };
  return sql`
with scoped as (
  select *, coalesce(shop, 'unknown') as fitted_by${cut} from ${identifier(livesTable(view.component))} where ${scopeSql(view)}
)
select cast(${groupCode(view)} as integer) as cut_group, fitted_by,
  cast(count(*) filter (install_known and ${failed}) as double) as failures,
  cast(coalesce(sum(exposure_miles) filter (install_known), 0) as double) as miles
from scoped group by ${labels}fitted_by order by fitted_by`;
}

/** The statements of a question about ages, by what they are for. */
export function lifeQueries(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const table = livesTable(view.component);
  const cases = safetyCasesStatement(view, table);
  return {
    groups: groupKeysStatement(view, table),
    lives: lifeRowsStatement(view, fromRecords),
    shops: shopStatement(view),
    ...(view.by.length > 0 ? { leftOut: leftOutStatement(view, table) } : {}),
    ...(mixMatters(view) ? { mix: mixStatement(view, table) } : {}),
    ...(cases ? { cases } : {}),
  };
}

export async function lifeEvidence(asking: Asking): Promise<LifeEvidence> {
  const { source, view, signal } = asking;
  await source.ensure(view.component, signal);
  const queries = lifeQueries(view, source.fromRecords);
  const ask = (name: string) => run(asking, queries[name] as Statement);
  const keys = readGroupKeys(view, await ask('groups'));
  return {
    keys,
    lives: readLifeRows(await ask('lives'), keys),
    shops: readShops(await ask('shops'), keys),
    mix: queries['mix'] ? readMix(await ask('mix'), keys) : new Map(),
    leftOut: await readLeftOut(asking, queries['leftOut'], keys),
    cases: queries['cases'] ? safetyCases(await ask('cases')) : [],
  };
}

function readShops(result: ResultTable, keys: GroupKeys): Carried[] {
  const [code, events, miles] = ['cut_group', 'failures', 'miles'].map((name) => numberColumn(result, name)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const shop = textColumn(result, 'fitted_by');
  return Array.from({ length: result.rows }, (_, row) => ({
    by: shop[row] ?? 'unknown',
    group: keys.ofCode[code[row] as number] ?? -1,
    events: events[row] as number,
    miles: miles[row] as number,
  })).filter(({ group }) => group >= 0);
}
