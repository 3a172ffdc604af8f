import type { Finding, QuestionId } from '../../shared/finding.ts';
import type { RecordQuality } from '../../shared/record-quality.ts';
import type { Progress, ReadReport, SetAsideRow } from '../../shared/record-set.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import type { RebuildSettings } from '../../lib/records/index.ts';
import type { LivesDesk } from './lives-desk.ts';

/** A file as the page hands it over: its path within the folder chosen, and the file itself, unread. */
export interface NamedFile {
  readonly name: string;
  readonly file: File;
}

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

/** What the worker does for the page. One desk holds one record set; ending the worker forgets it. */
export interface RecordDesk extends LivesDesk {
  openDemo(onProgress: ToldProgress): Promise<OpenedRecords | ReadReport>;
  /** The report alone where nothing in the files could be used. */
  openFiles(
    files: readonly NamedFile[],
    onProgress: ToldProgress,
    /** In place of what the files themselves say. */
    settings?: Partial<RebuildSettings>,
  ): Promise<OpenedRecords | ReadReport>;
  ask(job: number, question: QuestionId, view: View, units: UnitSystem): Promise<Finding>;
  /** Ends the job of that number; its answer is then an error that nobody waits for. */
  abandon(job: number): void;
  setAside(offset: number, limit: number): Promise<readonly SetAsideRow[]>;
  setAsideCsv(): Promise<Blob>;
  recordQuality(): Promise<RecordQuality>;
}

export const isOpened = (answer: OpenedRecords | ReadReport): answer is OpenedRecords => 'report' in answer;
