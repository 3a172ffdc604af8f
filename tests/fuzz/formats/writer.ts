import type { Random } from '../../../data/demo/random.ts';
import type { TextTable } from '../valid-tables.ts';

/** How the bytes of a text become letters; null where the file is no text. */
export type WrittenAs = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252' | null;

export interface Written {
  readonly ending: string;
  readonly bytes: Uint8Array;
  readonly text: WrittenAs;
  /** Texts that a file of this kind cannot hold come out of it otherwise. */
  readonly exact: boolean;
}

/** Writes a table as a file of one kind; how in detail is drawn. */
export interface Writer {
  readonly format: string;
  readonly weight?: number;
  /** Rows that count where the file is sound: all, or those that are not blank. */
  readonly counts: 'all' | 'filled';
  write(table: TextTable, random: Random): Promise<Written>;
}
