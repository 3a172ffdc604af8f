import type { AskedLives } from '../columns/asked-lives.ts';
import type { CutCodes } from '../columns/cut-codes.ts';
import type { LifeColumns } from '../columns/life-columns.ts';
import type { ListedColumns } from '../columns/listed-columns.ts';

/** Text columns of the list. */
export const listedCuts = ['unit_id', 'position', 'role', 'life_number', 'shop', 'lubricant', 'hub_build'] as const;
export type ListedCut = (typeof listedCuts)[number];

/** Columns the list of lives is shown and ordered by, one place a life. */
export interface ListColumns extends ListedColumns {
  readonly life: LifeColumns;
  readonly cuts: Readonly<Record<ListedCut, CutCodes>>;
}

export async function listColumns(lives: AskedLives, signal?: AbortSignal): Promise<ListColumns> {
  const life = await lives.columns(signal);
  const listed = await lives.listed(signal);
  const cuts: Partial<Record<ListedCut, CutCodes>> = {};
  for (const column of listedCuts) cuts[column] = await lives.cut(column, signal);
  return { life, ...listed, cuts: cuts as Record<ListedCut, CutCodes> };
}
