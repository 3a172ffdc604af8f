import type { Asking } from '../asking.ts';
import type { AskedLives } from '../columns/asked-lives.ts';
import { gather } from '../gather.ts';
import { attributeName } from '../words/group-words.ts';
import { listed } from '../words/share-words.ts';
import { adjustingColumns, type AdjustingColumns } from './adjusting-columns.ts';
import { cellsOf } from './cells-of.ts';
import { pooledLevels, type PooledLevels } from './pooled-levels.ts';

interface Levels {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

/** What an adjusted model takes into account of some lives; codes are one a life, in the lives' order. */
export interface Adjustment {
  /** By column, the level with most failures first as the reference; in the order they were asked for. */
  readonly covariates: Readonly<Record<string, Levels>>;
  readonly strata: Levels;
  /** Columns behind the strata. */
  readonly strataOf: readonly string[];
  /** The vehicle of each life. */
  readonly cluster: Levels;
  /** What was put together or left out of the model, and why, in sentences. */
  readonly said: readonly string[];
}

/** A column of more levels than this becomes a baseline of its own a level, in place of so many ratios. */
const mostCovariateLevels = 30;

export interface AdjustmentAbout {
  /** Places of the lives in the lives table. */
  readonly rows: Int32Array;
  /** 1 where the life failed, by place among `rows`. */
  readonly event: ArrayLike<number>;
  /** Columns compared: never taken into account themselves. */
  readonly compared: readonly string[];
  /** Columns whose every value has a baseline of its own; the shop unless given. */
  readonly strata?: readonly string[];
}

/**
 * The covariates, strata and vehicles of an adjusted model under a view. Not known is a level of its
 * own. Levels with under five failures are put together; a column without two levels says nothing
 * and is left out; one with over thirty is held fixed as strata.
 */
export async function adjustmentOf(asking: Asking, lives: AskedLives, about: AdjustmentAbout): Promise<Adjustment> {
  const wanted = adjustingColumns(asking.view, about.compared, about.strata);
  const { rows, event } = about;
  const pooled = new Map<string, PooledLevels>();
  for (const column of wanted.covariates)
    pooled.set(column, pooledLevels(column, await lives.cut(column, asking.signal), rows, event));
  const size = (column: string) => pooled.get(column)?.levels.length ?? 0;
  const covariates = wanted.covariates.filter((column) => size(column) > 1 && size(column) <= mostCovariateLevels);
  const held = wanted.covariates.filter((column) => size(column) > mostCovariateLevels);
  const strataOf = [...wanted.strata, ...held];
  const parts: Levels[] = [];
  for (const column of strataOf) {
    const { levels, codes } = await lives.cut(column, asking.signal);
    parts.push({ levels, codes: gather(codes, rows) });
  }
  const unit = await lives.cut('unit_id', asking.signal);
  return {
    covariates: Object.fromEntries(covariates.map((column) => [column, pooled.get(column) as PooledLevels])),
    strata: parts.length === 1 ? (parts[0] as Levels) : cellsOf(parts, rows.length),
    strataOf,
    cluster: { levels: unit.levels, codes: gather(unit.codes, rows) },
    said: saidOf(wanted, pooled, held),
  };
}

function saidOf(
  wanted: AdjustingColumns,
  pooled: ReadonlyMap<string, PooledLevels>,
  held: readonly string[],
): string[] {
  const alike = wanted.covariates.filter((column) => (pooled.get(column)?.levels.length ?? 0) < 2);
  const names = (columns: readonly string[]) => listed(columns.map(attributeName));
  return [
    ...(alike.length > 0
      ? [
          alike.length === 1
            ? `${names(alike)} has one value among these lives and says nothing`
            : `${names(alike)} have one value each among these lives and say nothing`,
        ]
      : []),
    ...held.map(
      (column) => `${attributeName(column)} has over ${mostCovariateLevels} values: compared only within each`,
    ),
    ...wanted.covariates.flatMap((column) => {
      const together = [...(pooled.get(column)?.pooled ?? [])];
      return held.includes(column)
        ? []
        : together.map(
            ([label, labels]) =>
              `${attributeName(column)}: ${listed(labels)} stand together as “${label}”, each with few failures`,
          );
    }),
  ];
}
