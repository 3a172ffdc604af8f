import type { CategoryColumn, Covariates, SurvivalData } from './survival-data.ts';

/** The columns of survival data that do not tell when a row was at risk. */
export type RowColumns = Pick<SurvivalData, 'weight' | 'group' | 'cluster' | 'strata' | 'covariates'>;

/** Those columns at the rows listed, in that order; a row may be listed more than once, or not at all. */
export function takeRows({ weight, group, cluster, strata, covariates }: RowColumns, rows: Uint32Array): RowColumns {
  const columns = Object.entries(covariates ?? {}).map(([name, column]) => [name, takeColumn(column, rows)]);
  return {
    ...(weight ? { weight: takeColumn(weight, rows) } : {}),
    ...(group ? { group: takeColumn(group, rows) } : {}),
    ...(cluster ? { cluster: takeColumn(cluster, rows) } : {}),
    ...(strata ? { strata: takeColumn(strata, rows) } : {}),
    ...(covariates ? { covariates: Object.fromEntries(columns) as Covariates } : {}),
  };
}

/** Numbers as numbers, codes as codes, text as text. */
function takeColumn<C extends CategoryColumn>(column: C, rows: Uint32Array): C;
function takeColumn(column: CategoryColumn, rows: Uint32Array): CategoryColumn {
  if ('codes' in column)
    return { levels: column.levels, codes: fetch(column.codes, rows, new Int32Array(rows.length)) };
  if (typeof column[0] === 'string') return Array.from(rows, (row) => column[row] as string);
  return fetch(column as ArrayLike<number>, rows, new Float64Array(rows.length));
}

function fetch<A extends Float64Array | Int32Array>(from: ArrayLike<number>, rows: Uint32Array, to: A): A {
  for (let index = 0; index < rows.length; index++) to[index] = from[rows[index] as number] as number;
  return to;
}
