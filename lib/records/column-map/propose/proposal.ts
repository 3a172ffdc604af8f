import type { ColumnMap } from '../../../../shared/column-map.ts';
import type { TableName } from '../../../../shared/record-tables.ts';
import type { MapChange } from '../change-map.ts';

/** Something that the file leaves open and somebody has to say. */
export interface Ask {
  readonly id: string;
  readonly question: string;
  readonly options: readonly { readonly label: string; readonly set: readonly MapChange[] }[];
}

/** Why one of our columns is thought to come from where the map says. */
export interface ProposedColumn {
  readonly table: TableName;
  readonly ours: string;
  /** 0 to 1. */
  readonly confidence: number;
  readonly why: string;
  /** Words that no table of the trade knows, commonest first, each with its rows. */
  readonly unknownWords: readonly (readonly [word: string, rows: number])[];
}

/**
 * A column map as far as it can be told from the file. It may lack columns that its table needs, or
 * hold a guess that an ask is about: it is a map only once its schema says so and the asks are answered.
 */
export interface Proposal {
  readonly map: ColumnMap;
  readonly columns: readonly ProposedColumn[];
  readonly asks: readonly Ask[];
}
