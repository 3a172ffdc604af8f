import { z } from 'zod';
import { recordSetSchema, type RecordSetFile } from '../../shared/record-set.ts';
import { baseName, textOf, type RecordSource } from './record-source.ts';

/** What a record set says of itself; `said` is empty where `refused` tells why it cannot be used. */
export interface OwnWords {
  readonly said: RecordSetFile;
  readonly refused: readonly { readonly name: string; readonly why: string }[];
}

export const isRecordSetFile = ({ name }: RecordSource): boolean => baseName(name).toLowerCase() === 'record-set.json';

/** Reads the one `record-set.json` among the sources; of two that may differ neither is used. */
export async function readRecordSetFile(sources: readonly RecordSource[]): Promise<OwnWords> {
  const [only, ...more] = sources;
  if (!only) return { said: {}, refused: [] };
  if (more.length > 0) {
    const why = `is one of ${sources.length} of this name; a record set has one, and none of them is used`;
    return { said: {}, refused: sources.map(({ name }) => ({ name, why })) };
  }
  const said = await recordSetIn(only);
  return typeof said === 'string'
    ? { said: {}, refused: [{ name: only.name, why: `${said}, and is not used` }] }
    : { said, refused: [] };
}

async function recordSetIn(source: RecordSource): Promise<RecordSetFile | string> {
  let value: unknown;
  try {
    value = JSON.parse(await textOf(source));
  } catch (error) {
    return `is no JSON (${error instanceof Error ? error.message : String(error)})`;
  }
  const parsed = recordSetSchema.safeParse(value);
  if (!parsed.success) return `does not say what a record set can say (${problems(parsed.error)})`;
  const { observedFrom, observedTo } = parsed.data;
  if (observedFrom !== undefined && observedTo !== undefined && observedFrom > observedTo) {
    return `is observed from ${observedFrom} to ${observedTo}, which is before it`;
  }
  return parsed.data;
}

const problems = (error: z.ZodError): string =>
  error.issues
    .slice(0, 5)
    .map(({ path, message }) => `${path.join('.') || 'as a whole'}: ${message}`)
    .join('; ');
