import { arrowFile, arrowStream } from './arrow.ts';
import { delimitedText } from './delimited.ts';
import { jsonLines } from './json-lines.ts';
import { parquet } from './parquet.ts';
import { workbook } from './workbook.ts';
import type { Writer } from './writer.ts';

/** Every kind of file that is read. */
export const writers: readonly Writer[] = [delimitedText, jsonLines, workbook, parquet, arrowFile, arrowStream];
