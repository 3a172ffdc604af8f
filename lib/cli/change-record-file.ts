import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { changeFileSchema, changeRecordSchema, type ChangeRecord } from '../../shared/change-record.ts';
import { changeFingerprint } from '../questions/index.ts';
import { WrongCall, type Streams } from './call.ts';

/** The change written down in a file; says so where it is not what its fingerprint was taken of. */
export async function changeRecordOf(path: string | undefined, { err }: Streams): Promise<ChangeRecord | null> {
  if (path === undefined) return null;
  const file = changeFileSchema.safeParse(parsed(path));
  if (!file.success)
    throw new WrongCall(
      `not a change record; --change-record takes a file that the page “Did the change work?” wrote; ${path}: ${z.prettifyError(file.error).replaceAll(/\s*\n\s*/g, '; ')}`,
    );
  const record = changeRecordSchema.parse(file.data);
  const { fingerprint } = file.data;
  if (fingerprint !== undefined && fingerprint !== (await changeFingerprint(record)))
    err(
      `${path} was altered after its fingerprint was taken: what it says was written down on ${record.writtenOn} need not have been`,
    );
  return record;
}

function parsed(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    throw new WrongCall(
      `not a change record; --change-record takes a JSON file; ${path}: ${error instanceof Error ? error.message : String(error)}`,
    );
  }
}
