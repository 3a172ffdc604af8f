import { components, type FailureMode } from '../../shared/vocabulary.ts';
import type { View } from '../../shared/view.ts';
import { numberColumn, textColumn, type ResultTable } from '../engine/engine.ts';
import { joinSql, sql, type Statement } from '../engine/statement.ts';
import { groupCode, labelColumns, type GroupKeys } from './group-keys.ts';
import { scopeSql } from './scope.ts';

const sealModes = joinSql(
  components.seal.modes.map((mode) => sql`${mode as FailureMode}`),
  ', ',
);

/**
 * Lives of seals with the failure episodes (of any mode, or of the one asked for) found in their
 * exposure. A life's episodes are summed before they are joined, so that no mile counts twice.
 */
const countedLives = (view: View): Statement => sql`
with scoped as (
  select life_id, unit_id, axle, side, coalesce(shop, 'unknown') as shop, exposure_miles, state, install_known, mileage_quality
    ${view.by.length > 0 ? sql`, ${labelColumns(view)}` : sql``}
  from lives_seal where ${scopeSql(view)}
), found as (
  select life_id, count(*) as failures,
    count(*) filter (lining_contaminated = 'yes') as contaminated,
    count(*) filter (coalesce(lining_contaminated, 'unknown') not in ('yes', 'no')) as lining_unknown,
    count(*) filter (mode in (${sealModes}) and lining_contaminated = 'yes') as leaks_soaked,
    count(*) filter (mode in (${sealModes}) and lining_contaminated = 'no') as leaks_clean,
    count(*) filter (mode in (${sealModes}) and coalesce(lining_contaminated, 'unknown') not in ('yes', 'no')) as leaks_unknown,
    count(*) filter (inferred) as inferred
  from episodes where life_id is not null and ${modeSql(view)} group by life_id
), counted as (select * from scoped left join found using (life_id))`;

const modeSql = (view: View): Statement => (view.mode === null ? sql`true` : sql`mode = ${view.mode}`);

const counts = [
  'failures',
  'contaminated',
  'lining_unknown',
  'leaks_soaked',
  'leaks_clean',
  'leaks_unknown',
  'inferred',
] as const;

// Texts of our own making, never a user's: spliced, not bound.
const text = (texts: readonly string[], joint = ', '): Statement => ({ text: texts.join(joint), values: [] });
const total = (expression: string, name: string): string =>
  `cast(coalesce(sum(${expression}), 0) as double) as ${name}`;
const sums = text([
  total('1', 'lives'),
  total('exposure_miles', 'miles'),
  ...counts.map((name) => total(name, name)),
  total(`case when install_known then 0 else 1 end`, 'unknown_start'),
  total(`case when install_known then 0 else exposure_miles end`, 'unknown_start_miles'),
  total(`case when mileage_quality in ('interpolated', 'extrapolated') then 1 else 0 end`, 'estimated'),
  total(`case when state = 'removed-unknown' then 1 else 0 end`, 'removed_unknown'),
  `cast(count(distinct (axle, side)) as double) as wheel_ends`,
]);
const shopSums = text([
  total('failures', 'failures'),
  total('contaminated', 'contaminated'),
  total('exposure_miles', 'miles'),
]);

/** Counts and miles by group and vehicle. */
export const tallyStatement = (view: View): Statement => sql`
${countedLives(view)}
select cast(${groupCode(view)} as integer) as cut_group,
  cast(dense_rank() over (order by unit_id) - 1 as integer) as unit, ${sums}
from counted group by ${groupBy(view)}unit_id`;

/** Failures, contaminated ones and miles by group and shop that fitted the part. */
export const shopTallyStatement = (view: View): Statement => sql`
${countedLives(view)}
select cast(${groupCode(view)} as integer) as cut_group, shop, ${shopSums}
from counted group by ${groupBy(view)}shop order by shop`;

const groupBy = (view: View): Statement =>
  text(
    view.by.map((_, index) => `label_${index}, `),
    '',
  );

/** Episodes that no exposure stands behind: counted, so that none goes silently. */
export const unplacedStatement = (view: View): Statement => sql`
select cast(count(*) as double) as episodes, cast(count(*) filter (life_id is null) as double) as unplaced
from episodes where ${modeSql(view)}`;

export const tallyNames = [
  'lives',
  'miles',
  ...counts,
  'unknown_start',
  'unknown_start_miles',
  'estimated',
  'removed_unknown',
  'wheel_ends',
] as const;
export type TallyName = (typeof tallyNames)[number];

/** One row per group and vehicle; columns of equal length. */
export interface Tally {
  readonly rows: number;
  readonly group: Int32Array;
  readonly unit: Int32Array;
  readonly columns: Readonly<Record<TallyName, Float64Array>>;
}

/** Rows of the groups shown, their group as an index into `keys.groups`. */
export function readTally(result: ResultTable, keys: GroupKeys): Tally {
  const code = numberColumn(result, 'cut_group');
  const kept = Array.from(code, (_, row) => row).filter((row) => (keys.ofCode[code[row] as number] ?? -1) >= 0);
  const pick = (name: string) => {
    const column = numberColumn(result, name);
    return Float64Array.from(kept, (row) => column[row] as number);
  };
  return {
    rows: kept.length,
    group: Int32Array.from(kept, (row) => keys.ofCode[code[row] as number] as number),
    unit: Int32Array.from(pick('unit')),
    columns: Object.fromEntries(tallyNames.map((name) => [name, pick(name)])) as Record<TallyName, Float64Array>,
  };
}

/** Sum of a column by group. */
export function sumByGroup(tally: Tally, name: TallyName, groups: number): Float64Array {
  const sums = new Float64Array(groups);
  const column = tally.columns[name];
  for (let row = 0; row < tally.rows; row++)
    sums[tally.group[row] as number] = (sums[tally.group[row] as number] as number) + (column[row] as number);
  return sums;
}

/** What one shop's installations carry, by group. */
export interface ShopTally {
  readonly shop: string;
  readonly group: number;
  readonly failures: number;
  readonly contaminated: number;
  readonly miles: number;
}

export function readShopTally(result: ResultTable, keys: GroupKeys): ShopTally[] {
  const [code, shop] = [numberColumn(result, 'cut_group'), textColumn(result, 'shop')];
  const at = (name: string, row: number) => numberColumn(result, name)[row] as number;
  return Array.from({ length: result.rows }, (_, row) => ({
    shop: shop[row] ?? 'unknown',
    group: keys.ofCode[code[row] as number] ?? -1,
    failures: at('failures', row),
    contaminated: at('contaminated', row),
    miles: at('miles', row),
  })).filter(({ group }) => group >= 0);
}
