import type { ChangeRecord } from '../../shared/change-record.ts';
import type { Finding, QuestionId } from '../../shared/finding.ts';
import type { RecordQuality } from '../../shared/record-quality.ts';
import type { SetAsideRow } from '../../shared/record-set.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import type { BriefDesk } from './brief/brief-desk.ts';
import type { ColumnsDesk } from './columns-desk.ts';
import type { DemoName } from './demo-files.ts';
import type { LivesDesk } from './lives-desk.ts';
import type { OpenAnswer, OpenHow, ToldProgress } from './opened-records.ts';

/** A file as the page hands it over: its path within the folder chosen, and the file itself, unread. */
export interface NamedFile {
  readonly name: string;
  readonly file: File;
}

/** What a question tells before it is answered. */
export interface QuestionNews {
  readonly progress?: { readonly done: number; readonly of: number; readonly doing: string };
  /** The answer before its slow parts. */
  readonly first?: Finding;
}

export type ToldNews = (news: QuestionNews) => void;

/** What the worker does for the page. One desk holds one record set; ending the worker forgets it. */
export interface RecordDesk extends LivesDesk, ColumnsDesk, BriefDesk {
  openDemo(onProgress: ToldProgress, which: DemoName): Promise<OpenAnswer>;
  openFiles(files: readonly NamedFile[], onProgress: ToldProgress, how?: OpenHow): Promise<OpenAnswer>;
  /** A long question tells meanwhile how far it is, and the answer as it stands before its slow parts. */
  ask(job: number, question: QuestionId, view: View, units: UnitSystem, told?: ToldNews): Promise<Finding>;
  /** The texts of the queries that a question runs under a view, by what each is for. */
  queries(question: QuestionId, view: View): Promise<Readonly<Record<string, string>>>;
  /** SHA-256 of a change written down, hex. */
  changeFingerprint(record: ChangeRecord): Promise<string>;
  /** Ends the job of that number; its answer is then an error that nobody waits for. */
  abandon(job: number): void;
  setAside(offset: number, limit: number): Promise<readonly SetAsideRow[]>;
  setAsideCsv(): Promise<Blob>;
  recordQuality(): Promise<RecordQuality>;
}
