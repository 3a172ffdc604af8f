import type { Progress, ReadReport } from '../../shared/record-set.ts';
import type { RebuildSettings } from '../../lib/records/index.ts';

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
}

export type ToldProgress = (progress: Progress) => void;

export const isOpened = (answer: OpenedRecords | ReadReport): answer is OpenedRecords => 'report' in answer;
