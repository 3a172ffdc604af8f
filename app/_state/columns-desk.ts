import type { TableName } from '../../shared/record-tables.ts';
import type { ColumnMap, ColumnSource, Feeds } from '../../shared/column-map.ts';
import type { Ask, MapPreview, Proposal, SourceLook, WordsInUse } from '../../lib/records/index.ts';
import type { SourceChoice } from '../../shared/source-choice.ts';

/** Files with the same headers that wait until somebody has said what their columns mean. */
export interface AskedSource {
  readonly number: number;
  readonly files: readonly string[];
  /** Why a map that comes near does not fit. */
  readonly why: string | null;
  /** Whether it looks like records at all. */
  readonly likely: boolean;
  readonly headers: readonly string[];
  /** Some different values of each header. */
  readonly values: readonly (readonly string[])[];
  /** Rows looked at, and whether those are all. */
  readonly rows: number;
  readonly whole: boolean;
  /** The saved map that is looked at again. */
  readonly map: ColumnMap | null;
  readonly proposal: Proposal;
}

/** What opening stops with where files are not in our layout and no map fits them. */
export interface ColumnsAsked {
  readonly asked: readonly AskedSource[];
}

/** Where in its file an example stands. */
export interface RowExample {
  readonly file: string;
  readonly line: number;
}

/** A map as it does on the rows of its files. */
export interface TriedMap {
  /** Why it is no map yet, where it is none. */
  readonly preview: MapPreview | string;
  /** Where the examples of the preview stand, by their line in it. */
  readonly examples: Readonly<Record<number, RowExample>>;
  readonly words: readonly WordsInUse[];
  /** What places leave open, by the axles of the units as they are known now. */
  readonly asks: readonly Ask[];
  readonly whole: boolean;
}

/** A source with its rows in another place, and what was left behind of its files. */
export interface PlaceTaken {
  readonly taken: AskedSource;
  readonly behind: AskedSource | null;
}

/** The part of the desk that finds out how files become ours. */
export interface ColumnsDesk {
  /** What would be proposed if the rows fed something else. */
  readonly proposeColumns: (job: number, source: number, feeds: Feeds) => Promise<Proposal>;
  /** How one of its columns would become one of ours: its unit, its words. */
  readonly proposeColumn: (
    job: number,
    source: number,
    header: string,
    table: TableName,
    ours: string,
  ) => Promise<ColumnSource>;
  /** The sheets and first rows of its first file, where that leaves a choice of where the rows stand. */
  readonly lookAtPlaces: (job: number, source: number) => Promise<SourceLook>;
  /**
   * Takes the rows of a source from where somebody says they stand, or says why none stand there. Files that
   * have other headers there than the first stay as they were, as a source of their own.
   */
  readonly takePlace: (job: number, source: number, where: SourceChoice) => Promise<PlaceTaken | string>;
  /** Tries a map on the first rows, or on all of them where that is cheap. */
  readonly tryMap: (job: number, source: number, map: ColumnMap, all: boolean) => Promise<TriedMap>;
}

export type { Ask, MapPreview, Proposal, SourceLook, WordsInUse };
