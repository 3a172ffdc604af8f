import type { ColumnMap } from '../../shared/column-map.ts';
import type { Progress, ReadReport } from '../../shared/record-set.ts';
import type { RebuildSettings } from '../../lib/records/index.ts';
import type { ColumnsAsked } from './columns-desk.ts';

/** Values a column takes among the lives, commonest first, each with its lives. */
export interface ColumnChoices {
  readonly column: string;
  readonly values: readonly { readonly value: string; readonly lives: number }[];
}

/** What a scope can be chosen from. */
export interface ScopeChoices {
  readonly columns: readonly ColumnChoices[];
  /** How many lives carry each deviation, and how many are known not to. */
  readonly deviations: readonly { readonly column: string; readonly yes: number; readonly no: number }[];
  readonly firstYear: number | null;
  readonly lastYear: number | null;
}

export interface OpenedRecords {
  readonly report: ReadReport;
  readonly vehicles: number;
  readonly lives: number;
  readonly miles: number;
  readonly choices: ScopeChoices;
  /** The procedure and choices that the lives were rebuilt by. */
  readonly settings: RebuildSettings;
  /** Of the records and those settings together. */
  readonly fingerprint: string;
  /** All column maps that the files could be read by; each file's account says by which it was. */
  readonly maps: readonly ColumnMap[];
}

export type ToldProgress = (progress: Progress) => void;

/** How files are to be opened, beside what they say themselves. */
export interface OpenHow {
  /** In place of what the files themselves say. */
  readonly settings?: Partial<RebuildSettings>;
  /** Column maps that were kept: those that come along with the files go before them. */
  readonly kept?: readonly ColumnMap[];
  /** Column maps that go before any other. */
  readonly maps?: readonly ColumnMap[];
  /** Whether to stop and ask where no map fits a file; else it goes unread, as its account says. */
  readonly asks?: boolean;
  /** Sources whose column maps are to be looked at again. */
  readonly again?: readonly string[];
}

/** Opened; or the report alone where nothing in the files could be used; or what has to be said first. */
export type OpenAnswer = OpenedRecords | ReadReport | ColumnsAsked;

export const isOpened = (answer: OpenAnswer): answer is OpenedRecords => 'report' in answer;
export const isAsked = (answer: OpenAnswer): answer is ColumnsAsked => 'asked' in answer;
