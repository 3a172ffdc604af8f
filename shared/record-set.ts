import { z } from 'zod';
import { choicesSchema, type Choices } from './choices.ts';
import { columnMapSchema } from './column-map.ts';
import { proceduresSchema, type Procedure } from './procedure.ts';
import { tableNames } from './record-tables.ts';

/** `record-set.json` beside a folder's tables, so that the folder says everything about itself. */
export const recordSetSchema = z.object({
  name: z.string().optional(),
  /** Made-up records say so, on every screen and in every file. */
  invented: z.boolean().optional(),
  observedFrom: z.iso.date().optional(),
  observedTo: z.iso.date().optional(),
  procedures: proceduresSchema.optional(),
  /** By what each is called here; which file a map is for it says itself. */
  columnMaps: z.record(z.string(), columnMapSchema).optional(),
  choices: choicesSchema.optional(),
});
export type RecordSetFile = z.infer<typeof recordSetSchema>;

/** One row kept out of use: where it stood, what was wrong, what would have been accepted. */
export interface SetAsideRow {
  readonly file: string;
  /** Line of the file on which the row begins, the header being line 1. */
  readonly row: number;
  readonly column: string;
  readonly value: string;
  readonly reason: string;
  readonly accepted: string;
  /** The row as read, in the file's own columns. */
  readonly original: string;
}

/** What is noted of a file that a column map was applied to, after the file's name. */
export const readByMap = (source: string): string => `was read by the column map ${source}`;

/** The account of one file: read = kept + setAside, exactly. */
export interface FileAccount {
  readonly name: string;
  readonly table: (typeof tableNames)[number] | null;
  readonly read: number;
  readonly kept: number;
  readonly setAside: number;
  /** Headers of the file that no table has; their cells are not used. */
  readonly unusedColumns: readonly string[];
  /** The source whose column map it was read by; absent where its headers are ours. */
  readonly columnMap?: string;
  /** Why the whole file was not used, or null. */
  readonly refused: string | null;
  /** SHA-256 of the bytes, hex. */
  readonly fingerprint: string;
}

/** What opening some files came to. */
export interface ReadReport {
  readonly name: string;
  readonly invented: boolean;
  readonly files: readonly FileAccount[];
  readonly observedFrom: string | null;
  readonly observedTo: string | null;
  /** Those the record set brings; none = the one that ships. */
  readonly procedures: readonly Procedure[];
  /** Those the record set brings; else every repair on and nothing left out. */
  readonly choices: Choices;
  /** SHA-256 over the files' fingerprints in sorted order: the same records give the same one however split into tables' order. */
  readonly fingerprint: string;
  readonly messages: readonly string[];
}

export interface Progress {
  readonly doing: string;
  /** 0 to 1, or null where the end is not known. */
  readonly share: number | null;
}
