import type { QuestionId } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';
import { numberColumn } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import {
  evidenceStatement,
  evidenceTables,
  placesFile,
  placesStatement,
  type EvidenceTable,
  type LivesSource,
} from '../lives/index.ts';
import { queryCatalogue } from './catalogue.ts';

/** More rows of one table than this do not go along: a brief is sent by mail. */
export const mostEvidenceRows = 2_000_000;

export interface Asked {
  readonly question: QuestionId;
  readonly view: View;
}

/** Tables beside lives and episodes that a question reads under a view: those its statements name. */
export function evidenceFor({ question, view }: Asked): EvidenceTable[] {
  const texts = Object.values(queryCatalogue(question, view, true)).map(({ text }) => text);
  return evidenceTables.filter(({ table }) => {
    const named = new RegExp(`\\b(?:from|join) "?${table}\\b`);
    return texts.some((text) => named.test(text));
  });
}

export interface EvidenceFile {
  readonly name: string;
  readonly statement: Statement;
}

/** What has to stand beside a brief's lives so that all it asks can be asked again; none of a table that is too long. */
export async function evidenceFiles(
  { engine, fromRecords }: LivesSource,
  asked: readonly Asked[],
  signal?: AbortSignal,
): Promise<EvidenceFile[]> {
  if (!fromRecords) return [];
  const needed = new Set(asked.flatMap(evidenceFor));
  if (needed.size === 0) return [];
  const files = [{ name: placesFile, statement: placesStatement }];
  for (const one of needed) {
    const counted = await engine.query(sql`select cast(count(*) as double) as n from ${identifier(one.table)}`, signal);
    if ((numberColumn(counted, 'n')[0] ?? 0) <= mostEvidenceRows)
      files.push({ name: one.file, statement: evidenceStatement(one) });
  }
  return files;
}
