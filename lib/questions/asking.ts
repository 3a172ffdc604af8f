import type { ChangeRecord } from '../../shared/change-record.ts';
import type { Finding } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';
import { type ResultTable } from '../engine/engine.ts';
import type { Statement } from '../engine/statement.ts';
import type { LivesSource } from '../lives/index.ts';
import type { Wording } from './words/wording.ts';

/** How far a long question is, and what is being done. */
export interface Progress {
  readonly done: number;
  readonly of: number;
  readonly doing: string;
}

/** One question being answered: of what lives, under what view, in whose units; cancelled by the signal. */
export interface Asking {
  readonly source: LivesSource;
  readonly view: View;
  readonly words: Wording;
  readonly signal?: AbortSignal | undefined;
  /** Changes written down, beside those the record set keeps. */
  readonly changes?: readonly ChangeRecord[] | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
  /** Given the answer as it stands before its slow parts, by a question that has such. */
  readonly onFirst?: ((finding: Finding) => void) | undefined;
}

/** Runs one statement of the question; a cancelled question stops before the next. */
export function run({ source, signal }: Asking, statement: Statement): Promise<ResultTable> {
  signal?.throwIfAborted();
  return source.engine.query(statement, signal);
}
