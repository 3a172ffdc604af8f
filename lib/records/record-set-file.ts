import { z } from 'zod';
import { recordSetSchema, type RecordSetFile } from '../../shared/record-set.ts';
import { baseName, textOf, type RecordSource } from './record-source.ts';

export const isRecordSetFile = ({ name }: RecordSource): boolean => baseName(name).toLowerCase() === 'record-set.json';

/** What `record-set.json` says, or in one sentence why it cannot be used. */
export async function readRecordSetFile(source: RecordSource): Promise<RecordSetFile | string> {
  const text = await textOf(source);
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return 'is no JSON';
  }
  const parsed = recordSetSchema.safeParse(value);
  return parsed.success ? parsed.data : z.prettifyError(parsed.error).replaceAll('✖ ', '').replaceAll(/\s*\n\s*/g, ' ');
}
